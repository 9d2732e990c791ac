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
import java.time.LocalDate;
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

/** Changing a line, taking it off, leaving it open. */
@Path("/")
@RequestScoped
public class LineChangePages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject WorkLines lines;
  @Inject LinesLeftOpen leaving;
  @Inject OrderBook book;
  @Inject Fleet fleet;
  @Inject Signatory signatory;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LineLeave(
      WorkOrderSheet sheet,
      OrderLine line,
      AircraftSheet aircraft,
      List<Option> licences,
      String statement,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LineRevise(
      WorkOrderSheet sheet,
      OrderLine line,
      AircraftSheet aircraft,
      List<Option> areas,
      boolean takeOff,
      String action,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("work-lines/{id}/deferral")
  @RolesAllowed(Allow.ENGINEER)
  public Response askLeaving(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.ofLine(viewer, id);
    OrderLine line = line(sheet, id);
    Form form =
        WorkForm.begun(viewer, clock.instant(), signatory.licences())
            .with("line", line.line().rowId());
    return Answers.page(leavePage(sheet, line, form));
  }

  @POST
  @Path("work-lines/{id}/deferral")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response leave(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderLine line = line(book.ofLine(viewer, id), id);
    Form form = Form.of(posted);
    UUID row = form.required("line", "Line").uuid();
    String why = form.required("why", "Why").lines(1_000);
    String authority = form.required("authority", "Authority").text(120);
    String reference = form.required("reference", "Reference").text(200);
    LocalDate lastDay = form.required("last-day", "Last day").date();
    String licence = WorkForm.licence(form);
    return Answers.filing(
        form,
        () -> {
          leaving.leave(
              viewer,
              signatory.prove(form),
              row,
              new LinesLeftOpen.Leaving(why, authority, reference, lastDay),
              licence,
              form.key());
          return line.line().link();
        },
        () -> {
          WorkOrderSheet sheet = book.ofLine(viewer, id);
          return leavePage(sheet, line(sheet, id), form);
        });
  }

  @GET
  @Path("work-lines/{id}/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askRevision(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.ofLine(viewer, id);
    LineSheet line = line(sheet, id).line();
    Form form =
        Form.blank()
            .with("revises", line.rowId())
            .with("title", line.title())
            .with("area", line.area().word())
            .with("data-reference", line.dataReference())
            .with("rating", line.rating());
    if (line.independent()) {
      form.with("independent", "yes");
    }
    return Answers.page(revisePage(sheet, line(sheet, id), false, form));
  }

  @POST
  @Path("work-lines/{id}/revision")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderLine line = line(book.ofLine(viewer, id), id);
    Form form = Form.of(posted);
    UUID revises = form.required("revises", "The line").uuid();
    String title = form.required("title", "What is to be done").text(300);
    Area area = WorkForm.area(form, "area");
    String data = form.optional("data-reference", "Data").text(200);
    String rating = form.optional("rating", "Rating").text(60);
    boolean independent = form.checked("independent");
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          lines.revise(
              viewer,
              revises,
              new WorkLines.Change(
                  title,
                  area == null ? Area.OTHER : area,
                  data == null ? "" : data,
                  rating == null ? "" : rating,
                  independent),
              reason,
              form.key());
          return line.line().link();
        },
        () -> revisePage(book.ofLine(viewer, id), line, false, form));
  }

  @GET
  @Path("work-lines/{id}/voiding")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askTakingOff(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.ofLine(viewer, id);
    OrderLine line = line(sheet, id);
    Form form = Form.blank().with("revises", line.line().rowId());
    return Answers.page(revisePage(sheet, line, true, form));
  }

  @POST
  @Path("work-lines/{id}/voiding")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response takeOff(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderLine line = line(book.ofLine(viewer, id), id);
    Form form = Form.of(posted);
    UUID revises = form.required("revises", "The line").uuid();
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          lines.takeOff(viewer, revises, reason, form.key());
          return "/work-orders/" + line.line().orderId();
        },
        () -> revisePage(book.ofLine(viewer, id), line, true, form));
  }

  private LineLeave leavePage(WorkOrderSheet sheet, OrderLine line, Form form) {
    return new LineLeave(
        sheet, line, aircraft(sheet), signatory.licences(), Statements.LEFT_OPEN, form);
  }

  private LineRevise revisePage(WorkOrderSheet sheet, OrderLine line, boolean takeOff, Form form) {
    return new LineRevise(
        sheet,
        line,
        aircraft(sheet),
        Area.options(),
        takeOff,
        line.line().link() + (takeOff ? "/voiding" : "/revision"),
        form);
  }

  private OrderLine line(WorkOrderSheet sheet, UUID id) {
    return OrderBook.line(sheet, id);
  }

  private AircraftSheet aircraft(WorkOrderSheet sheet) {
    return fleet.sheet(viewer, sheet.order().aircraftId(), View.EVERYTHING);
  }
}
