package trestle.defects;

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
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.profiles.RuleProfiles;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Putting a deferral off once more. */
@Path("/")
@RequestScoped
public class DeferralExtensionPages {
  @Inject Deferrals deferrals;
  @Inject DeferralExtensions extensions;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DeferralExtend(
      AircraftSheet aircraft, Deferrals.Entry entry, Form form, String atLatest, String toldWithin)
      implements TemplateInstance {}

  @GET
  @Path("deferrals/{id}/extension")
  @RolesAllowed({Allow.ENGINEER, Allow.CONTROLLER})
  public Response ask(@PathParam("id") UUID id) {
    Deferrals.Entry entry = deferrals.entry(viewer, id);
    Form form =
        Form.blank()
            .with("on", today())
            .with("new-last-day", DeferralWords.latest(entry.deferral()));
    return Answers.page(page(entry, form));
  }

  @POST
  @Path("deferrals/{id}/extension")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.ENGINEER, Allow.CONTROLLER})
  public Response extend(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Deferrals.Entry entry = deferrals.entry(viewer, id);
    NewDeferralExtension asked = read(id, form);
    return Answers.filing(
        form,
        () -> {
          extensions.extend(viewer, asked, form.key());
          return "/deferrals/" + id;
        },
        () -> page(entry, form));
  }

  private NewDeferralExtension read(UUID deferralId, Form form) {
    LocalDate newLastDay = form.required("new-last-day", "New last day").date();
    String why = form.required("why", "Why").text(1000);
    String where = form.required("unserviceable-at", "Where it became unserviceable").text(120);
    String part = form.optional("part-number", "Part number").text(60);
    LocalDate ordered = form.optional("ordered-on", "Ordered on").date();
    LocalDate delivery = form.optional("delivery-on", "First delivery").date();
    Instant at = StatedMoment.of(form, "Granted on", viewer, clock.instant());
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    String reference = form.required("reference", "Reference").text(200);
    LocalDate told = form.optional("told-on", "Authority told on").dateUpTo(today());
    return new NewDeferralExtension(
        deferralId,
        at,
        newLastDay,
        where,
        why,
        part == null ? "" : part,
        ordered,
        delivery,
        approvedBy,
        reference,
        told);
  }

  private TemplateInstance page(Deferrals.Entry entry, Form form) {
    LocalDate latest = DeferralWords.latest(entry.deferral());
    UUID aircraft = entry.defect().aircraftId();
    Integer hours = profiles.of(viewer, aircraft, View.asAt(today())).extensionNoticeHours();
    return new DeferralExtend(
        fleet.sheet(viewer, aircraft, View.EVERYTHING),
        entry,
        form,
        latest == null ? "Like 25 Nov 2026" : "At the latest " + Shown.date(latest),
        (hours == null ? "" : "Within " + Shown.plural(hours, "hour") + " by the rule profile. ")
            + "Left blank: not yet");
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
