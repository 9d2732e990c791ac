package trestle.workshop.paper;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.formats.Pdf;
import trestle.web.Allow;
import trestle.web.Viewer;

/** An order's papers as PDF: black and white, each page numbered and with the ledger's head. */
@Path("/work-orders/{id}/paper")
@RequestScoped
public class PaperPages {
  static final String A4 = "A4";

  /** Four to a sheet of A4, or one on a roll of labels. */
  private static final String LABEL = "105mm 148mm";

  @Inject Papers papers;
  @Inject InstantSource clock;
  @Inject Viewer viewer;
  @Context UriInfo uri;

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PaperOrder(Paper paper, List<Card> cards, String size) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PaperRelease(Paper paper, String address, String size) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PaperEntries(Paper paper, List<LogEntry> entries, String address, String size)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PaperDiscrepancies(Paper paper, String size) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PaperParts(Paper paper, String size) implements TemplateInstance {}

  /** The order with a card a line, to write on. */
  @GET
  @Path("work-order.pdf")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response order(@PathParam("id") UUID id) {
    Paper paper = papers.of(viewer, id, clock.instant());
    return pdf(paper, "work-order", new PaperOrder(paper, Card.of(paper.sheet()), A4));
  }

  @GET
  @Path("release.pdf")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response release(@PathParam("id") UUID id) {
    Paper paper = papers.ofClosed(viewer, id, clock.instant());
    return pdf(paper, "release", new PaperRelease(paper, address(), A4));
  }

  /**
   * @param size {@code label} for labels; A4 otherwise
   */
  @GET
  @Path("log-entries.pdf")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response entries(@PathParam("id") UUID id, @QueryParam("size") String size) {
    Paper paper = papers.ofClosed(viewer, id, clock.instant());
    String page = "label".equals(size) ? LABEL : A4;
    return pdf(
        paper, "log-entries", new PaperEntries(paper, LogEntries.of(paper), address(), page));
  }

  @GET
  @Path("discrepancies.pdf")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response discrepancies(@PathParam("id") UUID id) {
    Paper paper = papers.ofClosed(viewer, id, clock.instant());
    return pdf(paper, "discrepancies", new PaperDiscrepancies(paper, A4));
  }

  @GET
  @Path("parts.pdf")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response parts(@PathParam("id") UUID id) {
    Paper paper = papers.of(viewer, id, clock.instant());
    return pdf(paper, "parts", new PaperParts(paper, A4));
  }

  /** Where this installation is asked, as whoever prints asks it. */
  private String address() {
    return uri.getBaseUri().toString();
  }

  private static Response pdf(Paper paper, String what, TemplateInstance page) {
    return pdf(paper.sheet().order().no().replace(' ', '-') + "-" + what, page);
  }

  static Response pdf(String name, TemplateInstance page) {
    return Response.ok(Pdf.of(page.render()))
        .type("application/pdf")
        .header("Content-Disposition", "attachment; filename=\"" + name + ".pdf\"")
        .build();
  }
}
