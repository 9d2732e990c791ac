package trestle.overview;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.Instant;
import java.time.InstantSource;
import java.util.UUID;
import trestle.fleet.Views;
import trestle.formats.Csv;
import trestle.formats.Pdf;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Shown;
import trestle.web.Viewer;

/** An aircraft's status report: on screen, as PDF, as CSV. */
@Path("/")
@RequestScoped
public class StatusPages {
  @Inject Viewer viewer;
  @Inject InstantSource clock;
  @Inject Views views;
  @Inject StatusSheets reports;

  @CheckedTemplate(basePath = "overview", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Status(StatusSheet report, AsAt asAt, Form form, String at) implements TemplateInstance {}

  @CheckedTemplate(basePath = "overview", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record StatusPrinted(StatusSheet report, String operator, String at)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/status")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response status(@PathParam("id") UUID id, @Context UriInfo uri) {
    Form form = Form.of(uri.getQueryParameters());
    AsAt asAt = asAt(form);
    Status page = new Status(reports.of(viewer, id, asAt), asAt, form, printed());
    return Answers.page(form.isOk() ? 200 : 400, page);
  }

  @GET
  @Path("aircraft/{id}/status.pdf")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response pdf(@PathParam("id") UUID id, @Context UriInfo uri) {
    StatusSheet report = reports.of(viewer, id, asAt(Form.of(uri.getQueryParameters())));
    byte[] pdf = Pdf.of(new StatusPrinted(report, viewer.operatorName(), printed()).render());
    return file(report, "pdf", "application/pdf").entity(pdf).build();
  }

  @GET
  @Path("aircraft/{id}/status.csv")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response csv(@PathParam("id") UUID id, @Context UriInfo uri) {
    StatusSheet report = reports.of(viewer, id, asAt(Form.of(uri.getQueryParameters())));
    return file(report, "csv", "text/csv;charset=UTF-8").entity(Csv.of(report.lines())).build();
  }

  private static Response.ResponseBuilder file(StatusSheet report, String kind, String type) {
    String name = report.sheet().registration() + "-status." + kind;
    return Response.ok()
        .type(type)
        .header("Content-Disposition", "attachment; filename=\"" + name + "\"");
  }

  private AsAt asAt(Form form) {
    return views.asked(viewer, form, viewer.dateOf(clock.instant()));
  }

  private String printed() {
    Instant now = clock.instant();
    return Shown.moment(now, viewer.zone());
  }
}
