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
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** A second person’s inspection of signed work, and taking such work away. */
@Path("/")
@RequestScoped
public class LineWorkPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject LineWorks works;
  @Inject LineCorrections corrections;
  @Inject OrderBook book;
  @Inject Fleet fleet;
  @Inject Signatory signatory;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** Something short that is signed about a line: an inspection, a taking away. */
  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LineAttest(
      WorkOrderSheet sheet,
      OrderLine line,
      AircraftSheet aircraft,
      boolean inspection,
      List<Option> licences,
      String statement,
      String action,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("line-works/{id}/voiding")
  @RolesAllowed(Allow.ENGINEER)
  public Response askTakingAway(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.ofWork(viewer, id);
    Form form = WorkForm.begun(viewer, clock.instant(), signatory.licences());
    return Answers.page(attest(sheet, ofWork(sheet, id), id, false, form));
  }

  @POST
  @Path("line-works/{id}/voiding")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response takeAway(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderLine line = ofWork(book.ofWork(viewer, id), id);
    Form form = Form.of(posted);
    String reason = form.required("words", "Reason").text(500);
    String licence = WorkForm.licence(form);
    return Answers.filing(
        form,
        () -> {
          corrections.takeAway(viewer, signatory.prove(form), id, licence, reason, form.key());
          return line.line().link();
        },
        () -> attest(book.ofWork(viewer, id), line, id, false, form));
  }

  @GET
  @Path("line-works/{id}/inspection")
  @RolesAllowed(Allow.ENGINEER)
  public Response askInspection(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.ofWork(viewer, id);
    Form form = WorkForm.begun(viewer, clock.instant(), signatory.licences());
    return Answers.page(attest(sheet, ofWork(sheet, id), id, true, form));
  }

  @POST
  @Path("line-works/{id}/inspection")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response inspect(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderLine line = ofWork(book.ofWork(viewer, id), id);
    Form form = Form.of(posted);
    String words = form.required("words", "What was seen").lines(1_000);
    String licence = WorkForm.licence(form);
    return Answers.filing(
        form,
        () -> {
          works.inspect(viewer, signatory.prove(form), id, words, licence, form.key());
          return "/work-orders/" + line.line().orderId();
        },
        () -> attest(book.ofWork(viewer, id), line, id, true, form));
  }

  private LineAttest attest(
      WorkOrderSheet sheet, OrderLine line, UUID workId, boolean inspection, Form form) {
    return new LineAttest(
        sheet,
        line,
        aircraft(sheet),
        inspection,
        signatory.licences(),
        inspection ? Statements.INSPECTED : Statements.TAKEN_AWAY,
        "/line-works/" + workId + (inspection ? "/inspection" : "/voiding"),
        form);
  }

  private static OrderLine ofWork(WorkOrderSheet sheet, UUID workId) {
    return OrderBook.lineOfWork(sheet, workId);
  }

  private AircraftSheet aircraft(WorkOrderSheet sheet) {
    return fleet.sheet(viewer, sheet.order().aircraftId(), View.EVERYTHING);
  }
}
