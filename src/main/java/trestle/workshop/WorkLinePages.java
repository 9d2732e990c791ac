package trestle.workshop;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Role;
import trestle.web.Viewer;

/** One line: what it asks for, what was done, and what the viewer may do about it. */
@Path("/")
@RequestScoped
public class WorkLinePages {
  @Inject OrderBook book;
  @Inject WorkReadings readings;
  @Inject WorkCosts costs;
  @Inject Fleet fleet;
  @Inject Viewer viewer;

  /** What the viewer may do with a line now. */
  record May(
      boolean sign,
      boolean inspect,
      boolean parts,
      boolean leave,
      boolean change,
      boolean putRight,
      boolean supply,
      boolean read,
      boolean photo) {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LinePage(
      WorkOrderSheet sheet,
      OrderLine line,
      AircraftSheet aircraft,
      List<Totals.Of> totals,
      List<WorkReadings.Judged> readings,
      int minutes,
      May may)
      implements TemplateInstance {}

  @GET
  @Path("work-lines/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    WorkOrderSheet sheet = book.ofLine(viewer, id);
    OrderLine line = line(sheet, id);
    List<Totals.Of> totals = line.isSigned() ? Totals.read(line.work().times()) : List.of();
    return Answers.page(
        new LinePage(
            sheet,
            line,
            aircraft(sheet),
            totals,
            readings.ofLine(viewer, line.line().id()),
            costs.of(viewer, sheet).minutesOf(line.line().ordinal()),
            may(sheet, line)));
  }

  private May may(WorkOrderSheet sheet, OrderLine line) {
    OrderState state = sheet.state();
    boolean engineer = viewer.is(Role.ENGINEER) && !state.isOver();
    boolean going = engineer && state != OrderState.DRAFT && !sheet.awaitsApproval();
    boolean plan =
        viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)
            && !state.isOver()
            && !line.isSigned()
            && line.parts().isEmpty();
    LineSheet asked = line.line();
    boolean leavable = !asked.isTask() && !asked.inspection() && asked.defectId() == null;
    return new May(
        going && !line.isSigned() && line.leftOpen() == null,
        viewer.is(Role.ENGINEER) && line.awaitsInspection() && !line.workedOnBy(viewer.personId()),
        going && !line.isSigned(),
        going && !line.isSigned() && leavable && line.leftOpen() == null,
        plan,
        viewer.is(Role.ENGINEER) && line.isSigned(),
        viewer.is(Role.ENGINEER),
        going && !line.isSigned(),
        viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER) && !state.isOver());
  }

  private OrderLine line(WorkOrderSheet sheet, UUID id) {
    return OrderBook.line(sheet, id);
  }

  private AircraftSheet aircraft(WorkOrderSheet sheet) {
    return fleet.sheet(viewer, sheet.order().aircraftId(), View.EVERYTHING);
  }
}
