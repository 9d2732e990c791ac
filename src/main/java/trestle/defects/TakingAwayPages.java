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
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * Taking away what should not have been filed about a defect or an event; it stays to be seen. A
 * page is about the row that counts, whichever row of it was asked for.
 */
@Path("/")
@RequestScoped
public class TakingAwayPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Rectifications rectifications;
  @Inject EventInspections inspections;
  @Inject AbnormalEvents events;
  @Inject DefectBook book;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * What a page takes away.
   *
   * @param title "Take this inspection away"
   * @param said what the record says
   * @param then what follows from it
   * @param link of what it is about
   * @param signed whether an engineer signs for it
   */
  record Record(
      String title, String said, String then, String link, String action, boolean signed) {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record TakingAwayForm(
      Record record, boolean may, List<Option> licences, String statement, Form form)
      implements TemplateInstance {}

  /** The use case that takes the record away. */
  private interface Filer {
    UUID file(Proof proof, TakingAway asked, UUID formKey);
  }

  @GET
  @Path("rectifications/{id}/voiding")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askRectification(@PathParam("id") UUID id) {
    return ask(rectification(id));
  }

  @POST
  @Path("rectifications/{id}/voiding")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response rectification(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return file(
        rectification(id),
        posted,
        (proof, asked, key) -> rectifications.takeAway(viewer, proof, id, asked, key));
  }

  @GET
  @Path("event-inspections/{id}/voiding")
  @RolesAllowed(Allow.ENGINEER)
  public Response askInspection(@PathParam("id") UUID id) {
    return ask(inspection(id));
  }

  @POST
  @Path("event-inspections/{id}/voiding")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response inspection(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return file(
        inspection(id),
        posted,
        (proof, asked, key) -> inspections.takeAway(viewer, proof, id, asked, key));
  }

  @GET
  @Path("abnormal-events/{id}/voiding")
  @RolesAllowed(Allow.ENGINEER)
  public Response askEvent(@PathParam("id") UUID id) {
    return ask(event(id));
  }

  @POST
  @Path("abnormal-events/{id}/voiding")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response event(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return file(
        event(id), posted, (proof, asked, key) -> events.takeAway(viewer, proof, id, asked, key));
  }

  private Record rectification(UUID id) {
    DefectBook.Entry entry = book.rectified(viewer, id);
    RectificationSheet done = entry.isOpen() ? entry.done(id) : entry.rectification();
    return new Record(
        "Take away what was done",
        "Defect " + entry.current().no() + ", " + Shown.date(done.on()) + ": " + done.marked(),
        "The defect is open again, with what was decided about it before.",
        entry.current().link(),
        "/rectifications/" + done.id() + "/voiding",
        !done.isTranscribed());
  }

  private Record inspection(UUID id) {
    EventEntry entry = events.inspected(viewer, id);
    InspectionSheet stands = entry.inspection();
    InspectionSheet found = stands == null ? entry.inspection(id) : stands;
    return new Record(
        "Take an inspection away",
        entry.current().inspection() + ", " + Shown.date(found.on()) + ": " + found.found(),
        "The event holds the aircraft again until its inspection is certified.",
        entry.current().link(),
        "/event-inspections/" + found.id() + "/voiding",
        true);
  }

  private Record event(UUID id) {
    EventSheet event = events.entry(viewer, id).current();
    return new Record(
        "Take an event away",
        event.kindName() + ", " + Shown.date(event.on()) + ": " + event.words(),
        "It no longer holds the aircraft.",
        event.link(),
        "/abnormal-events/" + event.id() + "/voiding",
        true);
  }

  private Response ask(Record record) {
    Form form = Form.blank();
    List<Option> licences = licences();
    if (licences.size() == 1) {
      form.with("licence", licences.get(0).value());
    }
    return Answers.page(page(record, form));
  }

  private Response file(Record record, MultivaluedMap<String, String> posted, Filer filer) {
    Form form = Form.of(posted);
    String reason = form.required("reason", "Reason").text(500);
    String licence = record.signed() ? CertifiedForm.licence(form) : "";
    if (!may(record)) {
      form.fail("", "Only an engineer takes away what an engineer certified.");
    }
    return Answers.filing(
        form,
        () -> {
          Proof proof = record.signed() ? identity.prove(viewer, form.value("password")) : null;
          filer.file(proof, new TakingAway(reason, licence), form.key());
          return record.link();
        },
        () -> page(record, form));
  }

  private TakingAwayForm page(Record record, Form form) {
    return new TakingAwayForm(record, may(record), licences(), Certifying.TAKEN_AWAY, form);
  }

  private boolean may(Record record) {
    return !record.signed() || viewer.is(Role.ENGINEER);
  }

  private List<Option> licences() {
    return CertifiedForm.licences(members, viewer, clock.instant());
  }
}
