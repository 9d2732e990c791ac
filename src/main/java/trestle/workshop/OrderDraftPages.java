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
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Pager;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Work orders: the list, drawing one up, changing what it says, adding lines. */
@Path("/")
@RequestScoped
public class OrderDraftPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject WorkOrders orders;
  @Inject WorkLines lines;
  @Inject OrderBook book;
  @Inject OrderChoices choices;
  @Inject LinesLeftOpen leftOpen;
  @Inject Fleet fleet;
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
