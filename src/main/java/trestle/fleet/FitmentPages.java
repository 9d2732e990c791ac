package trestle.fleet;

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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** The forms on which components are fitted, removed and swapped. */
@Path("/components")
@RequestScoped
public class FitmentPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Components components;
  @Inject PartChanges changes;
  @Inject Spots spots;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentFit(
      ComponentSheet component,
      Form form,
      List<Option> places,
      String placed,
      boolean intoParts,
      String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentRemove(ComponentSheet component, Form form, String placed, String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentSwap(
      ComponentSheet component, Form form, String placed, List<Option> others, String times)
      implements TemplateInstance {}

  @GET
  @Path("{id}/fitments")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askFit(@PathParam("id") UUID id, @QueryParam("place") String place) {
    return Answers.page(fitPage(id, today().with("place", place)));
  }

  @POST
  @Path("{id}/fitments")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response fit(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    ComponentSheet sheet = components.history(viewer, id, View.EVERYTHING).sheet();
    Set<String> places = spots.nameable(viewer, sheet);
    String place = form.required("place", "Position").choice(places);
    boolean inPart = place != null && place.startsWith(Spots.IN);
    String inside = inPart ? form.required("assembly-place", "Place in the part").text(60) : null;
    Instant at = StatedMoment.of(form, "Fitted on", viewer, clock.instant());
    String released = released(form);
    return ComponentAnswers.filed(
        "/components/" + id,
        form,
        () ->
            changes.fit(
                viewer, new Fitments.Fit(id, Spots.read(place, inside), at, released, form.key())),
        () -> fitPage(id, form));
  }

  @GET
  @Path("{id}/removals")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askRemoval(@PathParam("id") UUID id) {
    return Answers.page(removePage(id, today()));
  }

  @POST
  @Path("{id}/removals")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response remove(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    components.history(viewer, id, View.EVERYTHING);
    UUID fitment = form.required("fitment", "Fitment").uuid();
    Instant at = StatedMoment.of(form, "Removed on", viewer, clock.instant());
    String why = form.optional("why", "Why").text(500);
    String released = released(form);
    return ComponentAnswers.filed(
        "/components/" + id,
        form,
        () ->
            changes.remove(
                viewer,
                new Fitments.Remove(
                    fitment,
                    at,
                    why == null ? "" : why,
                    form.checked("scheduled"),
                    released,
                    form.key())),
        () -> removePage(id, form));
  }

  @GET
  @Path("{id}/swaps")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askSwap(@PathParam("id") UUID id) {
    return Answers.page(swapPage(id, today()));
  }

  @POST
  @Path("{id}/swaps")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response swap(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    ComponentSheet sheet = components.history(viewer, id, View.EVERYTHING).sheet();
    List<String> others = spots.others(viewer, sheet).stream().map(Option::value).toList();
    String other = form.required("other", "Changes places with").choice(others);
    Instant at = StatedMoment.of(form, "Swapped on", viewer, clock.instant());
    String why = form.required("why", "Why").text(500);
    String released = released(form);
    return ComponentAnswers.filed(
        "/components/" + id,
        form,
        () ->
            changes.swap(
                viewer,
                new Fitments.Swap(
                    id,
                    UUID.fromString(other),
                    at,
                    why,
                    form.checked("scheduled"),
                    released,
                    form.key())),
        () -> swapPage(id, form));
  }

  /** The certificate of release to service, or null where the field is blank. */
  private static String released(Form form) {
    return form.optional("release", "Released by").text(200);
  }

  private ComponentFit fitPage(UUID id, Form form) {
    ComponentHistory history = components.history(viewer, id, View.EVERYTHING);
    PartKind kind = history.sheet().kind();
    return new ComponentFit(
        history.sheet(),
        form,
        spots.offered(viewer, history.sheet()),
        placed(history),
        kind == PartKind.OTHER,
        times());
  }

  private ComponentRemove removePage(UUID id, Form form) {
    ComponentHistory history = components.history(viewer, id, View.EVERYTHING);
    Placement placed = history.placed();
    if (placed != null && form.value("fitment").isEmpty()) {
      form.with("fitment", placed.fitmentId());
    }
    return new ComponentRemove(history.sheet(), form, placed(history), times());
  }

  private ComponentSwap swapPage(UUID id, Form form) {
    ComponentHistory history = components.history(viewer, id, View.EVERYTHING);
    return new ComponentSwap(
        history.sheet(), form, placed(history), spots.others(viewer, history.sheet()), times());
  }

  /** Where it is, in words; null where it is fitted nowhere. */
  private String placed(ComponentHistory history) {
    return history.placed() == null ? null : spots.words(viewer, history.placed());
  }

  private Form today() {
    return Form.blank().with("on", Shown.typed(viewer.dateOf(clock.instant())));
  }

  private String times() {
    return viewer.timesInUtc() ? "UTC" : "local time";
  }
}
