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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** What labour costs, and when the owner is asked before work starts. */
@Path("/workshop-settings")
@RequestScoped
public class WorkshopSettingPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final String HOME = "/workshop-settings";
  private static final List<Option> APPROVALS =
      List.of(
          new Option("by-order", "Only orders that ask for it"),
          new Option("always", "Every order"));

  @Inject WorkshopSettings settings;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** A statement with whether it counts today. */
  record Stated(WorkshopSettings.Rate rate, boolean counts, boolean later) {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record WorkshopSettingsPage(
      List<Stated> rates,
      boolean always,
      List<Option> people,
      List<Option> approvals,
      boolean mayRate,
      boolean mayApprove,
      Form form)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all() {
    return Answers.page(page(Form.blank().with("from", Shown.typed(today()))));
  }

  @POST
  @Path("labour-rates")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response rate(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Map<UUID, String> names = members.names(viewer);
    UUID person = form.optional("person", "Person").uuid();
    if (person != null && !names.containsKey(person)) {
      form.fail("person", "Person must be among the choices shown.");
    }
    String typed =
        person == null
            ? form.required("name", "Kind of labour").text(80)
            : form.optional("name", "Kind of labour").text(80);
    BigDecimal rate = form.optional("rate", "Rate of an hour").decimal(2);
    String currency = form.required("currency", "Currency").text(3);
    LocalDate from = form.required("from", "From").date();
    return Answers.filing(
        form,
        () -> {
          String name = typed == null || typed.isBlank() ? names.get(person) : typed;
          settings.state(viewer, name, person, rate, currency, from, form.key());
          return HOME;
        },
        () -> page(form));
  }

  @POST
  @Path("approval")
  @Consumes(FORMS)
  @RolesAllowed(Allow.OWNER)
  public Response approval(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String chosen = form.required("approval", "Approval").choice("by-order", "always");
    return Answers.filing(
        form,
        () -> {
          settings.approve(viewer, "always".equals(chosen), form.key());
          return HOME;
        },
        () -> page(form));
  }

  private WorkshopSettingsPage page(Form form) {
    Set<UUID> counting = new HashSet<>();
    settings.inForce(viewer, today()).forEach(rate -> counting.add(rate.id()));
    boolean always = settings.approvesAlways(viewer);
    if (form.value("approval").isEmpty()) {
      form.with("approval", always ? "always" : "by-order");
    }
    return new WorkshopSettingsPage(
        settings.rates(viewer).stream()
            .map(
                rate ->
                    new Stated(rate, counting.contains(rate.id()), rate.from().isAfter(today())))
            .toList(),
        always,
        members.names(viewer).entrySet().stream()
            .map(each -> new Option(each.getKey().toString(), each.getValue()))
            .toList(),
        APPROVALS,
        viewer.isAny(Role.OWNER, Role.CONTROLLER),
        viewer.is(Role.OWNER),
        form);
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
