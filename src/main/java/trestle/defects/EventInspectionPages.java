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
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** An engineer certifies the inspection that an abnormal event asks for; and puts that right. */
@Path("/")
@RequestScoped
public class EventInspectionPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject EventInspections inspections;
  @Inject AbnormalEvents events;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventInspected(
      AircraftSheet aircraft,
      EventSheet event,
      boolean correcting,
      List<Option> licences,
      String statement,
      String action,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("abnormal-events/{id}/inspection")
  @RolesAllowed(Allow.ENGINEER)
  public Response ask(@PathParam("id") UUID id) {
    EventSheet event = events.entry(viewer, id).current();
    return Answers.page(
        page(event, null, CertifiedForm.begun(viewer, clock.instant(), licences())));
  }

  @POST
  @Path("abnormal-events/{id}/inspection")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response certify(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    EventSheet event = events.entry(viewer, id).current();
    Form form = Form.of(posted);
    CertifiedWork work = read(form);
    return Answers.filing(
        form,
        () -> {
          inspections.certify(viewer, prove(form), event.entryId(), work, form.key());
          return event.link();
        },
        () -> page(event, null, form));
  }

  @GET
  @Path("event-inspections/{id}/correction")
  @RolesAllowed(Allow.ENGINEER)
  public Response askCorrection(@PathParam("id") UUID id) {
    EventEntry entry = events.inspected(viewer, id);
    return Answers.page(page(entry.current(), id, CertifiedForm.of(entry.inspection(id))));
  }

  @POST
  @Path("event-inspections/{id}/correction")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    EventSheet event = events.inspected(viewer, id).current();
    Form form = Form.of(posted);
    CertifiedWork work = read(form);
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          inspections.correct(viewer, prove(form), id, work, reason, form.key());
          return event.link();
        },
        () -> page(event, id, form));
  }

  private CertifiedWork read(Form form) {
    return new CertifiedForm(form, "found", "What was found", viewer, clock.instant()).read();
  }

  private Proof prove(Form form) {
    return identity.prove(viewer, form.value("password"));
  }

  private EventInspected page(EventSheet event, UUID correcting, Form form) {
    return new EventInspected(
        fleet.sheet(viewer, event.aircraftId(), View.EVERYTHING),
        event,
        correcting != null,
        licences(),
        Certifying.INSPECTED,
        correcting == null
            ? event.link() + "/inspection"
            : "/event-inspections/" + correcting + "/correction",
        form);
  }

  private List<Option> licences() {
    return CertifiedForm.licences(members, viewer, clock.instant());
  }
}
