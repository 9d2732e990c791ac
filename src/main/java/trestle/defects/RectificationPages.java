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
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** An engineer says what was done about a defect and signs for it; and puts that right. */
@Path("/")
@RequestScoped
public class RectificationPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Defects defects;
  @Inject DefectBook book;
  @Inject Repeats repeats;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record RectificationForm(
      AircraftSheet aircraft,
      DefectBook.Entry entry,
      List<Earlier> earlier,
      RectificationSheet correcting,
      List<Option> licences,
      String statement,
      String action,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("defects/{id}/rectification")
  @RolesAllowed(Allow.ENGINEER)
  public Response ask(@PathParam("id") UUID id) {
    return Answers.page(page(book.entry(viewer, id), null, begun()));
  }

  @POST
  @Path("defects/{id}/rectification")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response file(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DefectBook.Entry entry = book.entry(viewer, id);
    Form form = Form.of(posted);
    Defects.NewRectification asked = read(form);
    if (form.isReady()) {
      try {
        var proof = identity.prove(viewer, form.value("password"));
        defects.rectify(viewer, proof, entry.current().entryId(), asked, form.key());
        return Answers.see(entry.current().link());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page(book.entry(viewer, id), null, form));
      }
    }
    return Answers.again(form, page(entry, null, form));
  }

  @GET
  @Path("rectifications/{id}/correction")
  @RolesAllowed(Allow.ENGINEER)
  public Response askCorrection(@PathParam("id") UUID id) {
    DefectBook.Entry entry = book.rectified(viewer, id);
    RectificationSheet done = entry.rectification();
    Form form =
        Form.blank()
            .with("done", done.done())
            .with("data-reference", done.dataReference())
            .with("licence", done.licenceNumber())
            .with("on", Shown.date(done.on()));
    return Answers.page(page(entry, done, form));
  }

  @POST
  @Path("rectifications/{id}/correction")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DefectBook.Entry entry = book.rectified(viewer, id);
    RectificationSheet original =
        entry.done().stream().filter(row -> row.id().equals(id)).findFirst().orElseThrow();
    Form form = Form.of(posted);
    Defects.NewRectification asked = read(form);
    String reason = form.required("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        var proof = identity.prove(viewer, form.value("password"));
        defects.correctRectification(viewer, proof, id, asked, reason, form.key());
        return Answers.see(entry.current().link());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page(entry, original, form));
      }
    }
    return Answers.again(form, page(entry, original, form));
  }

  private Defects.NewRectification read(Form form) {
    String done = form.required("done", "What was done").lines(4_000);
    String data = form.required("data-reference", "Data").text(200);
    Instant at = StatedMoment.of(form, "Done on", viewer, clock.instant());
    String licence = form.required("licence", "Licence").text(60);
    if (!form.resumed() && form.value("password").isEmpty()) {
      form.fail("password", "Password must not be blank: it is how you sign.");
    }
    return form.isBad() ? null : new Defects.NewRectification(done, data, licence, at);
  }

  private Form begun() {
    Form form = Form.blank().with("on", Shown.date(viewer.dateOf(clock.instant())));
    List<Option> licences = licences();
    return licences.size() == 1 ? form.with("licence", licences.get(0).value()) : form;
  }

  private RectificationForm page(DefectBook.Entry entry, RectificationSheet correcting, Form form) {
    DefectSheet now = entry.current();
    return new RectificationForm(
        fleet.sheet(viewer, now.aircraftId(), View.EVERYTHING),
        entry,
        repeats.of(viewer, List.of(now.entryId())).getOrDefault(now.entryId(), List.of()),
        correcting,
        licences(),
        Certifying.RECTIFIED,
        correcting == null
            ? "/defects/" + now.entryId() + "/rectification"
            : "/rectifications/" + correcting.id() + "/correction",
        form);
  }

  private List<Option> licences() {
    return members.licencesOf(viewer, viewer.personId(), viewer.dateOf(clock.instant())).stream()
        .map(one -> new Option(one.number(), one.kind() + " " + one.number()))
        .toList();
  }
}
