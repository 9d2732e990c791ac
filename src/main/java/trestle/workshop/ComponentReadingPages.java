package trestle.workshop;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Viewer;

/** What was read of a component over the years, and by what it is judged. */
@Path("/components/{id}/readings")
@RequestScoped
public class ComponentReadingPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject WorkReadings readings;
  @Inject Components components;
  @Inject Viewer viewer;

  /** The readings of one kind and place, oldest first. */
  record Series(
      ReadingKind kind, String place, List<WorkReadings.Judged> readings, ReadingChart chart) {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentReadings(
      ComponentSheet component,
      Collection<ReadingVerdict.Limit> limits,
      List<Series> series,
      List<Option> kinds,
      boolean mayState,
      Form form)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofComponent(@PathParam("id") UUID id) {
    return Answers.page(componentPage(id, Form.blank()));
  }

  @POST
  @Path("limits")
  @Consumes(FORMS)
  @RolesAllowed({Allow.CONTROLLER, Allow.ENGINEER})
  public Response limit(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    components.history(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    ReadingKind kind = form.required("kind", "What was read").choice(ReadingKind.class);
    BigDecimal least = form.optional("least", "At least").decimal(1);
    BigDecimal most = form.optional("most", "At most").decimal(1);
    boolean reference = form.checked("by-reference");
    String source = form.required("source", "Data").text(200);
    return Answers.filing(
        form,
        () -> {
          readings.limit(
              viewer,
              id,
              new ReadingVerdict.Limit(kind, least, most, reference, source),
              form.key());
          return "/components/" + id + "/readings";
        },
        () -> componentPage(id, form));
  }

  private ComponentReadings componentPage(UUID id, Form form) {
    ComponentSheet component = components.history(viewer, id, View.EVERYTHING).sheet();
    Map<ReadingKind, ReadingVerdict.Limit> limits = readings.limitsOf(viewer, id);
    Map<String, List<ReadingSheet>> byPlace = new LinkedHashMap<>();
    for (ReadingSheet one : readings.ofComponent(viewer, id)) {
      byPlace.computeIfAbsent(one.kind() + " " + one.place(), key -> new ArrayList<>()).add(one);
    }
    List<Series> series =
        byPlace.values().stream()
            .map(all -> series(all, limits.get(all.get(0).kind())))
            .sorted(
                java.util.Comparator.comparing((Series one) -> one.kind())
                    .thenComparing(Series::place))
            .toList();
    return new ComponentReadings(
        component,
        limits.values(),
        series,
        ReadingKind.options(true),
        viewer.isAny(Role.ENGINEER, Role.CONTROLLER),
        form);
  }

  private static Series series(List<ReadingSheet> all, ReadingVerdict.Limit limit) {
    return new Series(
        all.get(0).kind(),
        all.get(0).place(),
        all.stream()
            .map(one -> new WorkReadings.Judged(one, ReadingVerdict.of(one, limit)))
            .toList(),
        ReadingChart.of(all, limit));
  }
}
