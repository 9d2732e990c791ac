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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
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
import trestle.web.Option;
import trestle.web.Pager;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Work orders: the list, drawing one up, and everything of one. */
@Path("/")
@RequestScoped
public class WorkOrderPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject WorkOrders orders;
  @Inject WorkLines lines;
  @Inject OrderBook book;
  @Inject OrderChoices choices;
  @Inject Blocks blocks;
  @Inject LinesLeftOpen leftOpen;
  @Inject Releases releases;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;
  @Context UriInfo uri;

  /** An order in a list, with its aircraft. */
  record Listed(WorkOrderSheet sheet, String registration) {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OrderList(
      AircraftSheet aircraft,
      List<Listed> orders,
      List<LinesLeftOpen.Standing> leftOpen,
      boolean open,
      Pager pager,
      boolean mayPlan)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OrderNew(
      List<AircraftSheet> fleet,
      AircraftSheet aircraft,
      List<Option> choices,
      List<Option> areas,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LinesNew(
      OrderSheet order, AircraftSheet aircraft, List<Option> choices, List<Option> areas, Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OrderRevise(OrderSheet order, AircraftSheet aircraft, Form form)
      implements TemplateInstance {}

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
      List<Releases.Checked> checked,
      LocalDate enterBy,
      boolean late,
      RuleProfile.Words words,
      String releasedAs,
      List<StepLine> steps,
      May may,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("work-orders")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response list(
      @QueryParam("aircraft") UUID aircraft,
      @QueryParam("open") String open,
      @QueryParam("page") String page) {
    boolean onlyOpen = open != null;
    OrderBook.Page found = book.page(viewer, aircraft, onlyOpen, number(page));
    Map<UUID, AircraftSheet> sheets =
        fleet.sheets(
            viewer,
            found.orders().stream().map(one -> one.order().aircraftId()).toList(),
            View.EVERYTHING);
    List<Listed> listed =
        found.orders().stream()
            .map(one -> new Listed(one, sheets.get(one.order().aircraftId()).registration()))
            .toList();
    return Answers.page(
        new OrderList(
            aircraft == null ? null : aircraft(aircraft),
            listed,
            aircraft == null
                ? List.of()
                : leftOpen
                    .standing(viewer, List.of(aircraft), View.EVERYTHING)
                    .getOrDefault(aircraft, List.of()),
            onlyOpen,
            Pager.of(found.number(), OrderBook.PAGE, found.all(), uri),
            mayPlan()));
  }

  @GET
  @Path("work-orders/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(
      @QueryParam("aircraft") UUID aircraft, @QueryParam("item") List<String> items) {
    Form form = Form.blank().with("aircraft", aircraft).withAll("items", items);
    return Answers.page(newPage(form));
  }

  @POST
  @Path("work-orders")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response create(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    UUID aircraft = form.required("aircraft", "Aircraft").uuid();
    WorkOrders.Terms terms = WorkForm.terms(form);
    List<NewLine> asked = WorkForm.needed(form, WorkForm.lines(form));
    return Answers.filing(
        form,
        () -> "/work-orders/" + orders.draft(viewer, aircraft, terms, asked, form.key()),
        () -> newPage(form));
  }

  @GET
  @Path("work-orders/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    return Answers.page(page(id, Form.blank()));
  }

  @GET
  @Path("work-orders/{id}/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askRevision(@PathParam("id") UUID id) {
    OrderSheet order = book.order(viewer, id).order();
    Form form =
        Form.blank()
            .with("revises", order.rowId())
            .with("title", order.title())
            .with("customer", order.customer())
            .with("place", order.place())
            .with("planned-from", shown(order.plannedFrom()))
            .with("planned-to", shown(order.plannedTo()));
    if (order.needsApproval()) {
      form.with("needs-approval", "yes");
    }
    return Answers.page(new OrderRevise(order, aircraft(order.aircraftId()), form));
  }

  @POST
  @Path("work-orders/{id}/revision")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderSheet order = book.order(viewer, id).order();
    Form form = Form.of(posted);
    UUID revises = form.required("revises", "The order").uuid();
    WorkOrders.Terms terms = WorkForm.terms(form);
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          orders.revise(viewer, revises, terms, reason, form.key());
          return order.link();
        },
        () -> new OrderRevise(order, aircraft(order.aircraftId()), form));
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

  @GET
  @Path("work-orders/{id}/lines/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askLines(@PathParam("id") UUID id) {
    return Answers.page(linesPage(book.order(viewer, id).order(), Form.blank()));
  }

  @POST
  @Path("work-orders/{id}/lines")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response addLines(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    OrderSheet order = book.order(viewer, id).order();
    Form form = Form.of(posted);
    List<NewLine> asked = WorkForm.needed(form, WorkForm.lines(form));
    return Answers.filing(
        form,
        () -> {
          lines.add(viewer, id, asked, form.key());
          return order.link();
        },
        () -> linesPage(order, form));
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
        sheet.release() == null ? List.of() : releases.checkFlights(viewer, sheet.release().id()),
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

  private OrderNew newPage(Form form) {
    UUID id = form.optional("aircraft", "Aircraft").uuid();
    AircraftSheet aircraft = id == null ? null : aircraft(id);
    return new OrderNew(
        aircraft == null ? fleet.sheets(viewer, View.asAt(today())) : List.of(),
        aircraft,
        aircraft == null ? List.of() : choices.of(viewer, id, today()),
        Area.options(),
        form);
  }

  private LinesNew linesPage(OrderSheet order, Form form) {
    return new LinesNew(
        order,
        aircraft(order.aircraftId()),
        choices.of(viewer, order.aircraftId(), today()),
        Area.options(),
        form);
  }

  /** The page asked for; the first where it is no number. */
  private static int number(String page) {
    return page != null && page.matches("\\d{1,6}") ? Integer.parseInt(page) : 1;
  }

  private AircraftSheet aircraft(UUID id) {
    return fleet.sheet(viewer, id, View.EVERYTHING);
  }

  private boolean mayPlan() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER);
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }

  private static String shown(LocalDate day) {
    return day == null ? null : Shown.date(day);
  }
}
