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
import java.math.BigDecimal;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Readings taken while a line was worked. */
@Path("/")
@RequestScoped
public class ReadingPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject WorkReadings readings;
  @Inject OrderBook book;
  @Inject Totals totals;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LineReadings(
      WorkOrderSheet sheet,
      OrderLine line,
      List<WorkReadings.Judged> readings,
      List<Option> kinds,
      List<Option> components,
      List<Option> taken,
      boolean mayRead,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("work-lines/{id}/readings")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofLine(@PathParam("id") UUID id) {
    return Answers.page(linePage(id, WorkForm.begun(viewer, clock.instant(), List.of())));
  }

  @POST
  @Path("work-lines/{id}/readings")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response take(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderLine line = OrderBook.line(book.ofLine(viewer, id), id);
    Form form = Form.of(posted);
    ReadingKind kind = form.required("kind", "What was read").choice(ReadingKind.class);
    UUID component = form.optional("component", "Of which").uuid();
    List<WorkReadings.One> all = rows(form, kind);
    BigDecimal supply = form.optional("supply", "Supply").decimal(1);
    BigDecimal reference = form.optional("reference", "Reference orifice").decimal(1);
    Instant at = StatedMoment.of(form, "Taken on", viewer, clock.instant());
    return Answers.filing(
        form,
        () -> {
          readings.file(
              viewer,
              new WorkReadings.Taken(id, component, kind, supply, reference, all, at),
              form.key());
          return line.line().link() + "/readings";
        },
        () -> linePage(id, form));
  }

  @POST
  @Path("work-lines/{id}/readings/voiding")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response takeAway(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderLine line = OrderBook.line(book.ofLine(viewer, id), id);
    Form form = Form.of(posted);
    UUID reading = form.required("reading", "Which").uuid();
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          readings.takeAway(viewer, reading, reason, form.key());
          return line.line().link() + "/readings";
        },
        () -> linePage(id, form));
  }

  /** One a row: its place, a colon, its figure; of a filter what was found. */
  private static List<WorkReadings.One> rows(Form form, ReadingKind kind) {
    String text = form.required("readings", "Readings").lines(4_000);
    List<WorkReadings.One> all = new ArrayList<>();
    if (text == null || kind == null) {
      return all;
    }
    for (String row : text.split("\n")) {
      int colon = row.lastIndexOf(':');
      if (row.isBlank()) {
        continue;
      }
      if (colon < 1 || row.substring(colon + 1).isBlank()) {
        form.fail("readings", "Readings must be rows such as “Cylinder 1: 72”.");
        return all;
      }
      String place = row.substring(0, colon).strip();
      String said = row.substring(colon + 1).strip();
      BigDecimal value = kind.inWords() ? null : figure(said);
      if (!kind.inWords() && value == null) {
        form.fail("readings", place + " must have a figure such as 72 or 71.5.");
        return all;
      }
      all.add(new WorkReadings.One(place, value, kind.inWords() ? said : ""));
    }
    return all;
  }

  private static BigDecimal figure(String text) {
    return text.matches("-?\\d{1,6}(\\.\\d{1,3})?") ? new BigDecimal(text) : null;
  }

  private LineReadings linePage(UUID id, Form form) {
    WorkOrderSheet sheet = book.ofLine(viewer, id);
    OrderLine line = OrderBook.line(sheet, id);
    boolean open = !sheet.state().isOver() && sheet.state() != OrderState.DRAFT && !line.isSigned();
    List<Option> whose =
        totals.at(viewer, sheet.order().aircraftId(), clock.instant()).stream()
            .filter(of -> of.componentId() != null)
            .map(of -> new Option(of.componentId().toString(), of.name()))
            .toList();
    List<WorkReadings.Judged> found = readings.ofLine(viewer, line.line().id());
    return new LineReadings(
        sheet,
        line,
        found,
        ReadingKind.options(false),
        whose,
        found.stream()
            .map(WorkReadings.Judged::reading)
            .map(one -> new Option(one.id().toString(), one.place() + ", " + one.shown()))
            .toList(),
        viewer.is(Role.ENGINEER) && open && !sheet.awaitsApproval(),
        form);
  }
}
