package trestle.programme;

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
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.ledger.View;
import trestle.reckoning.Calendar;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.Limit;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Putting off one occurrence of one limit, and taking that away again. */
@Path("/")
@RequestScoped
public class ExtensionPages {
  @Inject Extensions extensions;
  @Inject RequirementView views;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ExtensionNew(RequirementView.Seen seen, Form form, List<Option> limits, boolean needsText)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ExtensionVoiding(RequirementView.Seen seen, UUID extension, Form form)
      implements TemplateInstance {}

  @GET
  @Path("requirements/{id}/extensions/new")
  @RolesAllowed({Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(
      @PathParam("id") UUID id,
      @QueryParam("aircraft") UUID aircraft,
      @QueryParam("component") UUID component) {
    RequirementView.Seen seen = seen(id, aircraft, component);
    List<Option> limits = limits(seen);
    Form form =
        Form.blank()
            .with("aircraft", aircraft)
            .with("component", component)
            .with("on", today())
            .with("limit", limits.isEmpty() ? null : limits.get(0).value());
    return Answers.page(page(seen, form));
  }

  @POST
  @Path("requirements/{id}/extensions")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.CONTROLLER, Allow.ENGINEER})
  public Response grant(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    RequirementView.Seen seen =
        seen(
            id,
            form.optional("aircraft", "Aircraft").uuid(),
            form.optional("component", "Component").uuid());
    String limit =
        form.required("limit", "Limit").choice(limits(seen).stream().map(Option::value).toList());
    Long newDue = limit == null ? null : newDue(form, seen, limit);
    LocalDate on = form.required("on", "Granted on").dateUpTo(today());
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    String reference = form.required("reference", "Reference").text(300);
    String allowedBy = form.optional("allowed-by", "Text that allows it").text(300);
    if (form.isReady() && newDue != null) {
      boolean aircraft = seen.subject().isAircraft();
      try {
        extensions.grant(
            viewer,
            new NewExtension(
                id,
                seen.subject().aircraftId(),
                aircraft ? null : seen.subject().id(),
                on,
                ExtensionRow.path(limit),
                newDue,
                approvedBy,
                reference,
                RequirementForm.orBlank(allowedBy),
                form.key()));
        return Answers.see("/requirements/" + id + seen.query());
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(seen, form));
  }

  @POST
  @Path("extensions/{id}/voiding")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.CONTROLLER, Allow.ENGINEER})
  public Response voided(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String reason = form.required("reason", "Reason").text(500);
    UUID requirement = form.required("requirement", "Requirement").uuid();
    UUID aircraft = form.optional("aircraft", "Aircraft").uuid();
    UUID component = form.optional("component", "Component").uuid();
    int status = 422;
    if (form.isReady()) {
      try {
        extensions.voided(viewer, id, reason);
        return Answers.see(views.link(requirement, aircraft, component));
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        status = 409;
      }
    }
    if (requirement == null) {
      throw new NotHere("There is no such record here.");
    }
    return Answers.page(
        form.isBad() ? status : 200,
        new ExtensionVoiding(seen(requirement, aircraft, component), id, form));
  }

  private Long newDue(Form form, RequirementView.Seen seen, String limit) {
    Limit.Measured measured =
        (Limit.Measured)
            Extensions.limit(seen.item().reckoning(), ExtensionRow.path(limit)).limit();
    var field = form.required("new-due", "New due point");
    if (measured.scale() == Calendar.DAYS) {
      LocalDate day = field.date();
      return day == null ? null : day.toEpochDay();
    }
    Counter counter = (Counter) measured.scale();
    if (counter.inHours()) {
      Hours hours = field.hours();
      return hours == null ? null : hours.seconds();
    }
    return field.count();
  }

  private TemplateInstance page(RequirementView.Seen seen, Form form) {
    return new ExtensionNew(
        seen, form, limits(seen), seen.revision().terms().kind().allowsNothingOfItself());
  }

  private List<Option> limits(RequirementView.Seen seen) {
    return seen.limits().stream()
        .filter(Explained.LimitLine::extendable)
        .map(line -> new Option(line.path(), line.words() + ", due at " + line.due()))
        .toList();
  }

  private RequirementView.Seen seen(UUID id, UUID aircraft, UUID component) {
    RequirementView.Seen seen = views.seen(viewer, id, aircraft, component, View.asAt(today()));
    if (seen.item() == null) {
      throw new NotHere("There is no such requirement on this subject.");
    }
    return seen;
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
