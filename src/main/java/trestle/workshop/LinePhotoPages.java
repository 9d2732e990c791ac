package trestle.workshop;

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
import java.util.UUID;
import trestle.defects.Photos;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Upload;
import trestle.web.Viewer;

/** Adding photos to a line. */
@Path("/work-lines/{id}/photos")
@RequestScoped
public class LinePhotoPages {
  @Inject LinePhotos linePhotos;
  @Inject Photos photos;
  @Inject OrderBook book;
  @Inject Fleet fleet;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LinePhotosNew(
      WorkOrderSheet sheet, OrderLine line, AircraftSheet aircraft, boolean again, Form form)
      implements TemplateInstance {}

  @GET
  @Path("new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id) {
    return Answers.page(page(id, Form.blank()));
  }

  @POST
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response add(@PathParam("id") UUID id) {
    OrderLine line = OrderBook.line(book.ofLine(viewer, id), id);
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    String words = form.optional("photo-words", "What they show").text(LinePhotos.MOST_WORDS);
    return Answers.filing(
        form,
        () -> {
          linePhotos.add(
              viewer, id, photos.prepare(viewer, upload.files(Photos.FIELD)), words, form.key());
          return line.line().link();
        },
        () -> page(id, form));
  }

  private LinePhotosNew page(UUID id, Form form) {
    WorkOrderSheet sheet = book.ofLine(viewer, id);
    return new LinePhotosNew(
        sheet,
        OrderBook.line(sheet, id),
        fleet.sheet(viewer, sheet.order().aircraftId(), View.EVERYTHING),
        form.isBad() || form.resumed(),
        form);
  }
}
