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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.InstantSource;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Upload;
import trestle.web.Viewer;

/** Abnormal events: reporting one, certifying the inspection it asks for. */
@Path("/")
@RequestScoped
public class AbnormalEventPages {
  @Inject AbnormalEvents events;
  @Inject EventKinds kinds;
  @Inject Photos photos;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventNew(
      AircraftSheet aircraft, List<Option> fleet, List<Option> kinds, Form form, boolean again)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventPage(
      AircraftSheet aircraft,
      AbnormalEvents.Entry entry,
      DefectWords words,
      boolean justFiled,
      boolean mayCertify)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventInspected(
      AircraftSheet aircraft, EventSheet event, List<Option> licences, String statement, Form form)
      implements TemplateInstance {}

  @GET
  @Path("abnormal-events/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@QueryParam("aircraft") UUID aircraftId) {
    AircraftSheet aircraft =
        aircraftId == null ? null : fleet.sheet(viewer, aircraftId, View.EVERYTHING);
    Form form = Form.blank().with("on", Shown.date(viewer.dateOf(clock.instant())));
    return Answers.page(page(aircraft, form, false));
  }

  @POST
  @Path("abnormal-events")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response file() {
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    UUID aircraftId = form.required("aircraft", "Aircraft").uuid();
    AircraftSheet aircraft =
        aircraftId == null ? null : fleet.sheet(viewer, aircraftId, View.EVERYTHING);
    String kind =
        form.required("kind", "What happened")
            .choice(kinds.all(viewer).stream().map(EventKind::code).toList());
    String words = form.required("words", "In your words").lines(DefectDraft.MOST_WORDS);
    Instant at = StatedMoment.of(form, "Happened on", viewer, clock.instant());
    if (form.isReady()) {
      try {
        List<PhotoDraft> pictures = photos.prepare(viewer, upload.files(Photos.FIELD));
        UUID id =
            events.report(
                viewer,
                aircraftId,
                new AbnormalEvents.NewEvent(kind, words, at),
                pictures,
                null,
                form.key());
        return Answers.see("/abnormal-events/" + id + "?filed=1");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page(aircraft, form, true));
      }
    }
    return Answers.again(form, page(aircraft, form, true));
  }

  @GET
  @Path("abnormal-events/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @QueryParam("filed") String filed) {
    AbnormalEvents.Entry entry = events.entry(viewer, id);
    return Answers.page(
        new EventPage(
            fleet.sheet(viewer, entry.current().aircraftId(), View.EVERYTHING),
            entry,
            new DefectWords(viewer, names(), Map.of()),
            filed != null,
            viewer.is(Role.ENGINEER)));
  }

  @GET
  @Path("abnormal-events/{id}/inspection")
  @RolesAllowed(Allow.ENGINEER)
  public Response askInspection(@PathParam("id") UUID id) {
    Form form = Form.blank().with("on", Shown.date(viewer.dateOf(clock.instant())));
    List<Option> licences = licences();
    if (licences.size() == 1) {
      form.with("licence", licences.get(0).value());
    }
    return Answers.page(inspection(events.entry(viewer, id), form));
  }

  @POST
  @Path("abnormal-events/{id}/inspection")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed(Allow.ENGINEER)
  public Response certify(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    AbnormalEvents.Entry entry = events.entry(viewer, id);
    Form form = Form.of(posted);
    String found = form.required("found", "What was found").lines(4_000);
    String data = form.required("data-reference", "Data").text(200);
    Instant at = StatedMoment.of(form, "Done on", viewer, clock.instant());
    String licence = form.required("licence", "Licence").text(60);
    if (!form.resumed() && form.value("password").isEmpty()) {
      form.fail("password", "Password must not be blank: it is how you sign.");
    }
    if (form.isReady()) {
      try {
        var proof = identity.prove(viewer, form.value("password"));
        events.certify(
            viewer,
            proof,
            entry.current().entryId(),
            new AbnormalEvents.NewInspection(found, data, licence, at),
            form.key());
        return Answers.see(entry.current().link());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, inspection(entry, form));
      }
    }
    return Answers.again(form, inspection(entry, form));
  }

  private EventNew page(AircraftSheet aircraft, Form form, boolean again) {
    List<Option> all =
        fleet.sheets(viewer, View.asAt(viewer.dateOf(clock.instant()))).stream()
            .filter(one -> !one.retired())
            .map(one -> new Option(one.id().toString(), one.registration()))
            .toList();
    List<Option> listed =
        kinds.all(viewer).stream().map(kind -> new Option(kind.code(), kind.name())).toList();
    return new EventNew(aircraft, all, listed, form, again);
  }

  private EventInspected inspection(AbnormalEvents.Entry entry, Form form) {
    return new EventInspected(
        fleet.sheet(viewer, entry.current().aircraftId(), View.EVERYTHING),
        entry.current(),
        licences(),
        Certifying.INSPECTED,
        form);
  }

  private List<Option> licences() {
    return members.licencesOf(viewer, viewer.personId(), viewer.dateOf(clock.instant())).stream()
        .map(one -> new Option(one.number(), one.kind() + " " + one.number()))
        .toList();
  }

  private Map<UUID, String> names() {
    Map<UUID, String> names = new HashMap<>();
    members.all(viewer).forEach(member -> names.put(member.personId(), member.name()));
    return names;
  }
}
