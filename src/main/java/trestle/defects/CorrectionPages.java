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
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Upload;
import trestle.web.Viewer;

/** Putting a report right: what was found when stays, and so does the original. */
@Path("/")
@RequestScoped
public class CorrectionPages {
  @Inject Defects defects;
  @Inject DefectBook book;
  @Inject Photos photos;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DefectCorrection(
      AircraftSheet aircraft, DefectSheet original, DefectSheet now, DefectForm f, Form form)
      implements TemplateInstance {}

  @GET
  @Path("defects/{id}/correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id) {
    DefectBook.Entry entry = book.entry(viewer, id);
    return Answers.page(page(entry.current(), entry, DefectForm.filled(entry.current())));
  }

  @POST
  @Path("defects/{id}/correction")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response file(@PathParam("id") UUID id) {
    DefectBook.Entry entry = book.entry(viewer, id);
    DefectSheet original =
        entry.rows().stream().filter(row -> row.id().equals(id)).findFirst().orElseThrow();
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    DefectDraft draft =
        new DefectForm(form, viewer, clock.instant(), fitted(original.aircraftId()))
            .read(original.defect().discoveredAt());
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          List<PhotoDraft> more = photos.prepare(viewer, upload.files(Photos.FIELD));
          return "/defects/"
              + defects.correct(viewer, id, draft, more, reason, form.key()).entryId();
        },
        () -> page(original, book.entry(viewer, id), form));
  }

  private DefectCorrection page(DefectSheet original, DefectBook.Entry entry, Form form) {
    List<Fitting> fitted = fitted(original.aircraftId());
    return new DefectCorrection(
        fleet.sheet(viewer, original.aircraftId(), View.EVERYTHING),
        original,
        entry.current(),
        new DefectForm(form, viewer, clock.instant(), fitted),
        form);
  }

  private List<Fitting> fitted(UUID aircraftId) {
    return components
        .fittings(viewer, List.of(aircraftId), View.asAt(viewer.dateOf(clock.instant())))
        .getOrDefault(aircraftId, List.of());
  }
}
