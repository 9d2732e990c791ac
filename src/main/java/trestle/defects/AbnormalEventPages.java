package trestle.defects;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.OutboxJson;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Sender;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Upload;
import trestle.web.Viewer;

/** Abnormal events: reporting one, and putting that right. */
@Path("/")
@RequestScoped
public class AbnormalEventPages {
  @Inject AbnormalEvents events;
  @Inject EventKinds kinds;
  @Inject Photos photos;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventNew(
      AircraftSheet aircraft,
      List<Option> fleet,
      List<Option> kinds,
      Form form,
      boolean again,
      String zone)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventPage(
      AircraftSheet aircraft,
      EventEntry entry,
      DefectWords words,
      boolean justFiled,
      boolean mayReport,
      boolean mayCertify)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventCorrection(
      AircraftSheet aircraft, EventSheet original, EventSheet now, List<Option> kinds, Form form)
      implements TemplateInstance {}

  @GET
  @Path("abnormal-events/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@QueryParam("aircraft") UUID aircraftId) {
    AircraftSheet aircraft =
        aircraftId == null ? null : fleet.sheet(viewer, aircraftId, View.EVERYTHING);
    Form form = Form.blank().with("on", Shown.typed(viewer.dateOf(clock.instant())));
    return Answers.page(page(aircraft, form, false));
  }

  @POST
  @Path("abnormal-events")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response file(@HeaderParam("Accept") String accept) {
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    UUID aircraftId = form.required("aircraft", "Aircraft").uuid();
    AircraftSheet aircraft =
        aircraftId == null ? null : fleet.sheet(viewer, aircraftId, View.EVERYTHING);
    AbnormalEvents.NewEvent asked = read(form, null);
    boolean json = OutboxJson.isAsked(accept);
    if (!Sender.of(viewer).wrote(form)) {
      return again(403, json, aircraft, form);
    }
    if (form.isReady()) {
      try {
        List<PhotoDraft> pictures = photos.prepare(viewer, upload.files(Photos.FIELD));
        return done(json, events.report(viewer, aircraftId, asked, pictures, null, form.key()));
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return again(409, json, aircraft, form);
      }
    }
    return again(form.isBad() ? 422 : 200, json, aircraft, form);
  }

  private Response done(boolean json, UUID entryId) {
    String link = "/abnormal-events/" + entryId + "?filed=1";
    return json
        ? OutboxJson.received("event", events.entry(viewer, entryId).current().number(), link)
        : Answers.see(link);
  }

  private Response again(int status, boolean json, AircraftSheet aircraft, Form form) {
    return json
        ? OutboxJson.problem(status, form, false, null)
        : Answers.page(status, page(aircraft, form, !form.resumed()));
  }

  @GET
  @Path("abnormal-events/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @QueryParam("filed") String filed) {
    EventEntry entry = events.entry(viewer, id);
    return Answers.page(
        new EventPage(
            fleet.sheet(viewer, entry.current().aircraftId(), View.EVERYTHING),
            entry,
            new DefectWords(viewer, members.names(viewer), Map.of()),
            filed != null,
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.PILOT, Role.ENGINEER),
            viewer.is(Role.ENGINEER)));
  }

  @GET
  @Path("abnormal-events/{id}/correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response askCorrection(@PathParam("id") UUID id) {
    EventSheet now = events.entry(viewer, id).current();
    Form form =
        Form.blank()
            .with("kind", now.kindCode())
            .with("words", now.words())
            .with("on", Shown.typed(now.on()))
            .with("time", Shown.time(now.at(), viewer.flightZone()));
    return Answers.page(page(now, now, form));
  }

  @POST
  @Path("abnormal-events/{id}/correction")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response correct(@PathParam("id") UUID id) {
    EventSheet original = events.entry(viewer, id).row(id);
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    AbnormalEvents.NewEvent asked = read(form, original);
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          List<PhotoDraft> more = photos.prepare(viewer, upload.files(Photos.FIELD));
          events.correct(viewer, id, asked, more, reason, form.key());
          return original.link();
        },
        () -> page(original, events.entry(viewer, id).current(), form));
  }

  /**
   * @param original the row that is put right, or null; its kind may be chosen though it is no
   *     longer on the list
   */
  private AbnormalEvents.NewEvent read(Form form, EventSheet original) {
    String kind =
        form.required("kind", "What happened")
            .choice(kindOptions(original).stream().map(Option::value).toList());
    String words = form.required("words", "In your words").lines(DefectDraft.MOST_WORDS);
    Instant at = StatedMoment.of(form, "Happened on", viewer, clock.instant());
    boolean timed = !form.value("time").isBlank();
    return form.isBad() ? null : new AbnormalEvents.NewEvent(kind, words, at, timed);
  }

  private List<Option> kindOptions(EventSheet original) {
    List<Option> options = new ArrayList<>();
    kinds.all(viewer).forEach(kind -> options.add(new Option(kind.code(), kind.name())));
    if (original != null
        && options.stream().noneMatch(one -> one.value().equals(original.kindCode()))) {
      options.add(new Option(original.kindCode(), original.kindName()));
    }
    return options;
  }

  private EventNew page(AircraftSheet aircraft, Form form, boolean again) {
    List<Option> all =
        DefectForm.aircraft(fleet.sheets(viewer, View.asAt(viewer.dateOf(clock.instant()))));
    return new EventNew(aircraft, all, kindOptions(null), form, again, viewer.zone().getId());
  }

  private EventCorrection page(EventSheet original, EventSheet now, Form form) {
    return new EventCorrection(
        fleet.sheet(viewer, original.aircraftId(), View.EVERYTHING),
        original,
        now,
        kindOptions(original),
        form);
  }
}
