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
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.LocalTime;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.LocalMoment;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Safety occurrences: which defects are, whom they are reported to, and the list to follow up. */
@Path("/")
@RequestScoped
public class OccurrencePages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final String YES = "yes";
  private static final String NO = "no";

  @Inject Occurrences occurrences;
  @Inject DefectBook book;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OccurrenceList(Occurrences.FollowUp list, DefectWords words, boolean mayFollow)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OccurrenceForm(
      AircraftSheet aircraft,
      DefectSheet defect,
      List<Option> judgements,
      List<String> kinds,
      List<RuleProfile.ReportRecipient> recipients,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OccurrenceSent(Occurrences.Line line, DefectWords words, Form form)
      implements TemplateInstance {}

  @GET
  @Path("occurrences")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response list() {
    return Answers.page(new OccurrenceList(occurrences.followUp(viewer), words(), mayFollow()));
  }

  @GET
  @Path("defects/{id}/occurrence")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id) {
    DefectSheet defect = book.entry(viewer, id).current();
    return Answers.page(page(defect, begun(defect)));
  }

  @POST
  @Path("defects/{id}/occurrence")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response flag(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DefectSheet defect = book.entry(viewer, id).current();
    Form form = Form.of(posted);
    Occurrences.NewOccurrence asked = read(form);
    return Answers.filing(
        form,
        () -> {
          occurrences.flag(viewer, id, asked, form.key());
          return "/occurrences";
        },
        () -> page(defect, form));
  }

  @GET
  @Path("occurrences/{id}/report")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askSent(@PathParam("id") UUID id) {
    Form form = Form.blank().with("on", Shown.typed(viewer.dateOf(clock.instant())));
    return Answers.page(new OccurrenceSent(occurrences.one(viewer, id), words(), form));
  }

  @POST
  @Path("occurrences/{id}/report")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response sent(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Occurrences.Line line = occurrences.one(viewer, id);
    Form form = Form.of(posted);
    Instant at = StatedMoment.of(form, "Sent on", viewer, clock.instant());
    String reference = form.optional("reference", "Reference").text(200);
    return Answers.filing(
        form,
        () -> {
          occurrences.sent(viewer, id, at, reference == null ? "" : reference, form.key());
          return "/occurrences";
        },
        () -> new OccurrenceSent(line, words(), form));
  }

  private Occurrences.NewOccurrence read(Form form) {
    String reportable = form.required("reportable", "Whether it is reported").choice(YES, NO);
    if (NO.equals(reportable)) {
      String why = form.required("remark", "Remark").lines(1_000);
      return new Occurrences.NewOccurrence(false, "", "", null, why);
    }
    String kind = form.required("kind", "Kind").text(60);
    String to = form.required("report-to", "Report to").text(120);
    Instant due = due(form);
    String remark = form.optional("remark", "Remark").lines(1_000);
    return new Occurrences.NewOccurrence(true, kind, to, due, remark == null ? "" : remark);
  }

  /** A day alone lasts to its end. */
  private Instant due(Form form) {
    LocalDate on = form.optional("due-on", "By").date();
    LocalTime time = form.optional("due-time", "Time").time();
    if (on == null) {
      return null;
    }
    LocalTime at = time == null ? LocalTime.of(23, 59) : time;
    return LocalMoment.asked(form, "due-time", "Time", on.atTime(at), viewer.zone());
  }

  /** With whom the rules in force name first, and the time they leave. */
  private Form begun(DefectSheet defect) {
    Form form = Form.blank().with("reportable", YES);
    if (defect.defect().indicationMissed()) {
      form.with("kind", "warning not seen");
    }
    recipients(defect).stream()
        .findFirst()
        .ifPresent(
            first -> {
              form.with("report-to", first.to());
              if (!defect.defect().indicationMissed()) {
                form.with("kind", first.kind());
              }
              if (first.hours() != null) {
                Instant due = defect.defect().discoveredAt().plus(Duration.ofHours(first.hours()));
                form.with("due-on", Shown.typed(viewer.dateOf(due)))
                    .with("due-time", Shown.time(due, viewer.zone()));
              }
            });
    return form;
  }

  private OccurrenceForm page(DefectSheet defect, Form form) {
    return new OccurrenceForm(
        fleet.sheet(viewer, defect.aircraftId(), View.EVERYTHING),
        defect,
        List.of(
            new Option(YES, "It is a safety occurrence, and is reported"),
            new Option(NO, "It need not be reported", "Say why in the remark.")),
        List.of(
            "warning not seen",
            "failure, malfunction or defect",
            "damage or injury",
            "something done or left undone",
            "service difficulty"),
        recipients(defect),
        form);
  }

  private List<RuleProfile.ReportRecipient> recipients(DefectSheet defect) {
    return profiles.of(viewer, defect.aircraftId(), View.EVERYTHING).reportRecipients();
  }

  private DefectWords words() {
    return new DefectWords(viewer, java.util.Map.of(), java.util.Map.of());
  }

  private boolean mayFollow() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER);
  }
}
