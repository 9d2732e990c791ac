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
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Signing lines, one by one or several at a press, and putting what was signed right. */
@Path("/")
@RequestScoped
public class SigningPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final String AS_WRITTEN = "Carried out as written. Nothing found.";

  @Inject LineWorks works;
  @Inject LineCorrections corrections;
  @Inject OrderBook book;
  @Inject Presses presses;
  @Inject Fleet fleet;
  @Inject Signatory signatory;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * @param correcting the signed record that is put right, or null
   */
  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LineSign(
      WorkOrderSheet sheet,
      OrderLine line,
      AircraftSheet aircraft,
      WorkSheet correcting,
      List<Option> outcomes,
      List<Option> findings,
      List<Option> areas,
      List<Option> books,
      boolean mustChooseBook,
      List<Option> licences,
      String statement,
      String action,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LinesSign(
      WorkOrderSheet sheet,
      AircraftSheet aircraft,
      List<Option> lines,
      List<String> cautions,
      List<Option> licences,
      String statement,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("work-lines/{id}/work")
  @RolesAllowed(Allow.ENGINEER)
  public Response askWork(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.ofLine(viewer, id);
    LineSheet line = line(sheet, id).line();
    Form form =
        WorkForm.begun(viewer, clock.instant(), signatory.licences())
            .with("line", line.rowId())
            .with("outcome", Outcome.DONE.word())
            .with("data-reference", line.dataReference())
            .with("book", books(sheet, clock.instant()).preselected(sheet, line(sheet, id)));
    return Answers.page(signPage(sheet, line(sheet, id), null, form));
  }

  @POST
  @Path("work-lines/{id}/work")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response sign(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    LineSheet asked = line(book.ofLine(viewer, id), id).line();
    Form form = Form.of(posted);
    NewWork work = WorkForm.work(form, viewer, clock.instant());
    String licence = WorkForm.licence(form);
    return Answers.filing(
        form,
        () -> {
          works.sign(viewer, signatory.prove(form), licence, List.of(work), form.key());
          return "/work-orders/" + asked.orderId();
        },
        () -> {
          WorkOrderSheet sheet = book.ofLine(viewer, id);
          return signPage(sheet, line(sheet, id), null, form);
        });
  }

  @GET
  @Path("work-orders/{id}/signatures")
  @RolesAllowed(Allow.ENGINEER)
  public Response askMany(@PathParam("id") UUID id) {
    Form form =
        WorkForm.begun(viewer, clock.instant(), signatory.licences()).with("words", AS_WRITTEN);
    return Answers.page(manyPage(book.order(viewer, id), form));
  }

  @POST
  @Path("work-orders/{id}/signatures")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response signMany(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    List<NewWork> asked = many(book.order(viewer, id), form);
    String licence = WorkForm.licence(form);
    return Answers.filing(
        form,
        () -> {
          works.sign(viewer, signatory.prove(form), licence, asked, form.key());
          return "/work-orders/" + id;
        },
        () -> manyPage(book.order(viewer, id), form));
  }

  /** The lines that were ticked, each to its own data; a revision is that of the data typed. */
  private List<NewWork> many(WorkOrderSheet sheet, Form form) {
    List<String> ticked = form.values("lines");
    if (ticked.isEmpty()) {
      form.fail("lines", "Lines must be ticked: those that you have read and sign for.");
    }
    String words = form.required("words", "What was done").lines(4_000);
    String data = form.optional("data-reference", "Data").text(200);
    String revision = form.optional("data-revision", "Revision").text(60);
    Instant at = trestle.web.StatedMoment.of(form, "Done on", viewer, clock.instant());
    List<NewWork> works = new ArrayList<>();
    for (String one : ticked) {
      UUID row = rowId(one, form);
      String own =
          sheet.lines().stream()
              .filter(line -> line.line().rowId().equals(row))
              .map(line -> line.line().dataReference())
              .findFirst()
              .orElse("");
      if (row != null) {
        works.add(
            own.isEmpty()
                ? new NewWork(row, Outcome.DONE, words, data, revision, at, "", null)
                : new NewWork(row, Outcome.DONE, words, own, "", at, "", null));
      }
    }
    return works;
  }

  private static UUID rowId(String value, Form form) {
    try {
      return UUID.fromString(value);
    } catch (IllegalArgumentException e) {
      form.fail("lines", "Lines must be among the choices shown.");
      return null;
    }
  }

  @GET
  @Path("line-works/{id}/correction")
  @RolesAllowed(Allow.ENGINEER)
  public Response askCorrection(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.ofWork(viewer, id);
    OrderLine line = ofWork(sheet, id);
    WorkSheet work = line.record(id);
    Form form =
        WorkForm.begun(viewer, work.at(), signatory.licences())
            .with("line", line.line().rowId())
            .with("outcome", work.outcome().word())
            .with("words", work.words())
            .with("data-reference", work.dataReference())
            .with("data-revision", work.dataRevision())
            .with("time", Shown.time(work.at(), viewer.flightZone()))
            .with("performed-by", work.performedBy())
            .with("book", work.bookId());
    return Answers.page(signPage(sheet, line, work, form));
  }

  @POST
  @Path("line-works/{id}/correction")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderLine before = ofWork(book.ofWork(viewer, id), id);
    Form form = Form.of(posted);
    NewWork asked = corrected(form, before.record(id));
    String reason = form.required("reason", "Reason").text(500);
    String licence = WorkForm.licence(form);
    return Answers.filing(
        form,
        () -> {
          corrections.correct(
              viewer, signatory.prove(form), id, asked, licence, reason, form.key());
          return before.line().link();
        },
        () -> signPage(book.ofWork(viewer, id), before, before.record(id), form));
  }

  /** The exact moment stays unless the day or the time was typed otherwise. */
  private NewWork corrected(Form form, WorkSheet before) {
    form.with("outcome", before.outcome().word());
    boolean same =
        form.value("on").equals(Shown.typed(before.on()))
            && form.value("time").equals(Shown.time(before.at(), viewer.flightZone()));
    Form read = before.isFinding() ? form.with("outcome", Outcome.DONE.word()) : form;
    NewWork asked = WorkForm.work(read, viewer, clock.instant());
    return asked == null
        ? null
        : new NewWork(
            asked.lineRowId(),
            before.outcome(),
            asked.words(),
            asked.dataReference(),
            asked.dataRevision(),
            same ? before.at() : asked.at(),
            asked.performedBy(),
            null,
            asked.bookId());
  }

  private LineSign signPage(WorkOrderSheet sheet, OrderLine line, WorkSheet correcting, Form form) {
    Logbooks books = books(sheet, correcting == null ? clock.instant() : correcting.at());
    return new LineSign(
        sheet,
        line,
        aircraft(sheet),
        correcting,
        WorkForm.outcomes(),
        WorkForm.findings(),
        Area.options(),
        books.areOffered(line) ? books.options() : List.of(),
        books.mustBeChosen(sheet, line),
        signatory.licences(),
        Statements.WORKED,
        correcting == null
            ? line.line().link() + "/work"
            : "/line-works/" + correcting.id() + "/correction",
        form);
  }

  private Logbooks books(WorkOrderSheet sheet, Instant at) {
    return presses.books(viewer, sheet, at);
  }

  private LinesSign manyPage(WorkOrderSheet sheet, Form form) {
    List<Option> options = new ArrayList<>();
    List<String> cautions = new ArrayList<>();
    for (OrderLine line : sheet.byArea()) {
      LineSheet one = line.line();
      if (!line.isSigned() && line.leftOpen() == null) {
        String data = one.dataReference().isEmpty() ? "no data named" : one.dataReference();
        options.add(
            new Option(
                one.rowId().toString(),
                one.ordinal() + ". " + one.title(),
                one.area().label()
                    + ", "
                    + data
                    + (one.independent() ? ". A second person inspects it." : "")));
        String caution = one.area().caution();
        if (!caution.isEmpty() && !cautions.contains(caution)) {
          cautions.add(caution);
        }
      }
    }
    return new LinesSign(
        sheet, aircraft(sheet), options, cautions, signatory.licences(), Statements.WORKED, form);
  }

  private OrderLine line(WorkOrderSheet sheet, UUID id) {
    return OrderBook.line(sheet, id);
  }

  private static OrderLine ofWork(WorkOrderSheet sheet, UUID workId) {
    return OrderBook.lineOfWork(sheet, workId);
  }

  private AircraftSheet aircraft(WorkOrderSheet sheet) {
    return fleet.sheet(viewer, sheet.order().aircraftId(), View.EVERYTHING);
  }
}
