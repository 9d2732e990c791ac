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
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Role;
import trestle.web.Viewer;

/** Everything of one work order, and its steps. */
@Path("/")
@RequestScoped
public class WorkOrderPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject WorkOrders orders;
  @Inject OrderBook book;
  @Inject Blocks blocks;
  @Inject CheckFlights checkFlights;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** A step as the page lists it. */
  record StepLine(String label, LocalDate on, String by, String remark) {}

  /** Which steps the viewer may take now. */
  record May(
      boolean plan,
      boolean issue,
      boolean approve,
      boolean start,
      boolean cancel,
      boolean work,
      boolean release) {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OrderPage(
      WorkOrderSheet sheet,
      AircraftSheet aircraft,
      List<Block> blocks,
      List<Totals.Of> totals,
      List<CheckFlights.Checked> checked,
      LocalDate enterBy,
      boolean late,
      RuleProfile.Words words,
      String releasedAs,
      List<StepLine> steps,
      May may,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("work-orders/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    return Answers.page(page(id, Form.blank()));
  }

  @POST
  @Path("work-orders/{id}/issue")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response issue(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return step(id, posted, form -> orders.issue(viewer, id, form.key()));
  }

  @POST
  @Path("work-orders/{id}/approval")
  @Consumes(FORMS)
  @RolesAllowed(Allow.OWNER)
  public Response approve(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return step(
        id,
        posted,
        form -> {
          String remark = form.optional("remark", "Remark").text(500);
          if (form.isReady()) {
            orders.approve(viewer, id, remark, form.key());
          }
        });
  }

  @POST
  @Path("work-orders/{id}/start")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response start(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return step(id, posted, form -> orders.start(viewer, id, form.key()));
  }

  @POST
  @Path("work-orders/{id}/cancellation")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response cancel(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return step(
        id,
        posted,
        form -> {
          String reason = form.required("reason", "Reason").text(500);
          if (form.isReady()) {
            orders.cancel(viewer, id, reason, form.key());
          }
        });
  }

  private Response step(
      UUID id, MultivaluedMap<String, String> posted, java.util.function.Consumer<Form> step) {
    OrderSheet order = book.order(viewer, id).order();
    Form form = Form.of(posted);
    if (form.isReady()) {
      try {
        step.accept(form);
        if (form.isReady()) {
          return Answers.see(order.link());
        }
      } catch (trestle.web.Refusal refusal) {
        form.refused(refusal);
      } catch (trestle.web.Stale stale) {
        form.stale(stale);
      }
    }
    return Answers.again(form, page(id, form));
  }

  private OrderPage page(UUID id, Form form) {
    WorkOrderSheet sheet = book.order(viewer, id);
    AircraftSheet aircraft = aircraft(sheet.order().aircraftId());
    RuleProfile profile = profiles.of(viewer, aircraft.id(), View.EVERYTHING);
    LocalDate enterBy = Releases.enterBy(profile, sheet);
    LocalDate entered =
        sheet.release() == null ? viewer.dateOf(clock.instant()) : sheet.release().on();
    return new OrderPage(
        sheet,
        aircraft,
        sheet.state().holds() ? blocks.of(viewer, sheet) : List.of(),
        sheet.release() == null ? List.of() : Totals.read(sheet.release().times()),
        sheet.release() == null ? List.of() : checkFlights.of(viewer, sheet.release().id()),
        enterBy,
        enterBy != null && entered.isAfter(enterBy),
        profile.words(),
        capital(profile.words().release()),
        steps(sheet),
        may(sheet),
        form);
  }

  private List<StepLine> steps(WorkOrderSheet sheet) {
    Map<UUID, String> names = members.names(viewer);
    return sheet.steps().stream()
        .map(
            step ->
                new StepLine(
                    capital(step.step()),
                    step.on(),
                    names.getOrDefault(step.by(), "a former member"),
                    step.remark()))
        .toList();
  }

  private static String capital(String words) {
    return words.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + words.substring(1);
  }

  private May may(WorkOrderSheet sheet) {
    OrderState state = sheet.state();
    boolean over = state.isOver();
    boolean engineer = viewer.is(Role.ENGINEER);
    boolean issued = state == OrderState.ISSUED || state.holds();
    boolean untouched =
        sheet.lines().stream().noneMatch(line -> line.isSigned() || !line.parts().isEmpty());
    return new May(
        mayPlan() && !over,
        mayPlan() && state == OrderState.DRAFT && !sheet.lines().isEmpty(),
        viewer.is(Role.OWNER) && !over && sheet.awaitsApproval(),
        mayPlan() && state == OrderState.ISSUED && !sheet.awaitsApproval(),
        mayPlan() && !over && untouched,
        engineer && issued && !sheet.awaitsApproval() && !sheet.open().isEmpty(),
        engineer && state.holds() && sheet.signed() > 0);
  }

  private AircraftSheet aircraft(UUID id) {
    return fleet.sheet(viewer, id, View.EVERYTHING);
  }

  private boolean mayPlan() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER);
  }
}
