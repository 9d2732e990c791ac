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
import trestle.web.NotHere;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/**
 * What was done about a defect: an engineer signs for it, or it is copied from old papers; and
 * either is put right.
 */
@Path("/")
@RequestScoped
public class RectificationPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Rectifications rectifications;
  @Inject DefectBook book;
  @Inject Repeats repeats;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * @param correcting the row that is put right, or null
   * @param copied from old papers, so that nobody signs
   * @param may whether the viewer may file this at all
   */
  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record RectificationForm(
      AircraftSheet aircraft,
      DefectBook.Entry entry,
      List<Earlier> earlier,
      RectificationSheet correcting,
      boolean copied,
      boolean may,
      List<Option> licences,
      String statement,
      String action,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("defects/{id}/rectification")
  @RolesAllowed(Allow.ENGINEER)
  public Response ask(@PathParam("id") UUID id) {
    Form form = CertifiedForm.begun(viewer, clock.instant(), licences());
    return Answers.page(page(book.entry(viewer, id), "rectification", form));
  }

  @POST
  @Path("defects/{id}/rectification")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response file(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DefectSheet defect = book.entry(viewer, id).current();
    Form form = Form.of(posted);
    CertifiedWork work = certified(form);
    return Answers.filing(
        form,
        () -> {
          rectifications.rectify(viewer, prove(form), defect.entryId(), work, form.key());
          return defect.link();
        },
        () -> page(book.entry(viewer, id), "rectification", form));
  }

  @GET
  @Path("defects/{id}/transcription")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askTranscription(@PathParam("id") UUID id) {
    return Answers.page(page(book.entry(viewer, id), "transcription", Form.blank()));
  }

  @POST
  @Path("defects/{id}/transcription")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response transcribe(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DefectSheet defect = book.entry(viewer, id).current();
    Form form = Form.of(posted);
    Rectifications.Old old = old(form);
    return Answers.filing(
        form,
        () -> {
          rectifications.transcribe(viewer, defect.entryId(), old, form.key());
          return defect.link();
        },
        () -> page(book.entry(viewer, id), "transcription", form));
  }

  @GET
  @Path("rectifications/{id}/correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askCorrection(@PathParam("id") UUID id) {
    DefectBook.Entry entry = book.rectified(viewer, id);
    RectificationSheet stands = entry.rectification();
    if (stands == null) {
      throw new NotHere("There is no rectification to be put right here: it was taken away.");
    }
    return Answers.page(page(entry, stands, CertifiedForm.of(stands)));
  }

  @POST
  @Path("rectifications/{id}/correction")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DefectBook.Entry entry = book.rectified(viewer, id);
    RectificationSheet original = entry.done(id);
    Form form = Form.of(posted);
    Rectifications.Old old = original.isTranscribed() ? old(form) : null;
    CertifiedWork work = original.isTranscribed() ? null : certified(form);
    String reason = form.required("reason", "Reason").text(500);
    if (!may(original)) {
      form.fail("", "What an engineer certified is put right by an engineer, who signs.");
    }
    return Answers.filing(
        form,
        () -> {
          if (original.isTranscribed()) {
            rectifications.correct(viewer, id, old, reason, form.key());
          } else {
            rectifications.correct(viewer, prove(form), id, work, reason, form.key());
          }
          return entry.current().link();
        },
        () -> page(entry, original, form));
  }

  private CertifiedWork certified(Form form) {
    return new CertifiedForm(form, "done", "What was done", viewer, clock.instant()).read();
  }

  private Rectifications.Old old(Form form) {
    String done = form.required("done", "What was done").lines(4_000);
    String data = form.optional("data-reference", "Data").text(200);
    Instant at = StatedMoment.of(form, "Done on", viewer, clock.instant());
    String from = form.required("transcribed-from", "Copied from").text(200);
    String signedBy = form.optional("signed-by", "Signed by").text(120);
    return form.isBad() ? null : new Rectifications.Old(done, data, from, signedBy, at);
  }

  private Proof prove(Form form) {
    return identity.prove(viewer, form.value("password"));
  }

  /** What was certified is only for an engineer to put right. */
  private boolean may(RectificationSheet original) {
    return original.isTranscribed() || viewer.is(Role.ENGINEER);
  }

  private RectificationForm page(DefectBook.Entry entry, String what, Form form) {
    String action = "/defects/" + entry.current().entryId() + "/" + what;
    return page(entry, null, what.equals("transcription"), true, action, form);
  }

  private RectificationForm page(DefectBook.Entry entry, RectificationSheet original, Form form) {
    String action = "/rectifications/" + original.id() + "/correction";
    return page(entry, original, original.isTranscribed(), may(original), action, form);
  }

  private RectificationForm page(
      DefectBook.Entry entry,
      RectificationSheet correcting,
      boolean copied,
      boolean may,
      String action,
      Form form) {
    DefectSheet now = entry.current();
    return new RectificationForm(
        fleet.sheet(viewer, now.aircraftId(), View.EVERYTHING),
        entry,
        repeats.of(viewer, List.of(now.entryId())).getOrDefault(now.entryId(), List.of()),
        correcting,
        copied,
        may,
        licences(),
        Certifying.RECTIFIED,
        action,
        form);
  }

  private List<Option> licences() {
    return CertifiedForm.licences(members, viewer, clock.instant());
  }
}
