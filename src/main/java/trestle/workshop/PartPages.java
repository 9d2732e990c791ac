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
import trestle.fleet.AircraftSheet;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.Spot;
import trestle.ledger.View;
import trestle.profiles.RuleProfiles;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Parts of a line: removed, fitted, used, and the paper that came with them. */
@Path("/")
@RequestScoped
public class PartPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final String POSITION = "position_";
  private static final String INSIDE = "inside_";

  @Inject PartUses parts;
  @Inject OrderBook book;
  @Inject RuleProfiles profiles;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * @param what {@code removal}, {@code fitting} or {@code use}
   */
  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PartNew(
      WorkOrderSheet sheet,
      OrderLine line,
      AircraftSheet aircraft,
      String what,
      List<Option> components,
      List<Option> places,
      List<Option> classes,
      List<Option> movements,
      Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PartChange(
      WorkOrderSheet sheet, OrderLine line, UsedPart part, boolean takeAway, Form form)
      implements TemplateInstance {}

  @GET
  @Path("work-lines/{id}/removals/new")
  @RolesAllowed(Allow.ENGINEER)
  public Response askOff(@PathParam("id") UUID id) {
    return Answers.page(page(id, "removal", today()));
  }

  @POST
  @Path("work-lines/{id}/removals")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response off(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    book.ofLine(viewer, id);
    Form form = Form.of(posted);
    UUID component = form.required("component", "Component").uuid();
    Instant at = StatedMoment.of(form, "Removed on", viewer, clock.instant());
    String why = form.required("why", "Why").text(200);
    boolean scheduled = form.checked("scheduled");
    return Answers.filing(
        form,
        () -> {
          parts.off(viewer, new PartUses.Off(id, component, at, why, scheduled), form.key());
          return "/work-lines/" + id;
        },
        () -> page(id, "removal", form));
  }

  @GET
  @Path("work-lines/{id}/fittings/new")
  @RolesAllowed(Allow.ENGINEER)
  public Response askOn(@PathParam("id") UUID id) {
    return Answers.page(page(id, "fitting", today()));
  }

  @POST
  @Path("work-lines/{id}/fittings")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response on(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    WorkOrderSheet sheet = book.ofLine(viewer, id);
    Form form = Form.of(posted);
    UUID component = form.required("component", "Component").uuid();
    String place = form.required("place", "Place").text(200);
    String inside = form.optional("assembly-place", "Place in the part").text(60);
    Spot spot = form.isBad("place") ? null : spot(form, sheet, place, inside);
    Instant at = StatedMoment.of(form, "Fitted on", viewer, clock.instant());
    String evidence = form.optional("evidence", "Evidence").text(200);
    return Answers.filing(
        form,
        () -> {
          parts.on(viewer, new PartUses.On(id, component, spot, at, evidence), form.key());
          return "/work-lines/" + id;
        },
        () -> page(id, "fitting", form));
  }

  private static Spot spot(Form form, WorkOrderSheet sheet, String place, String inside) {
    if (place.startsWith(POSITION)) {
      return Spot.on(sheet.order().aircraftId(), place.substring(POSITION.length()));
    }
    try {
      UUID assembly = UUID.fromString(place.substring(Math.min(place.length(), INSIDE.length())));
      if (inside == null) {
        form.fail("assembly-place", "Place in the part must not be blank.");
        return null;
      }
      return Spot.in(assembly, inside);
    } catch (IllegalArgumentException e) {
      form.fail("place", "Place must be among the choices shown.");
      return null;
    }
  }

  @GET
  @Path("work-lines/{id}/parts/new")
  @RolesAllowed(Allow.ENGINEER)
  public Response askUse(@PathParam("id") UUID id) {
    Form form = Form.blank().with("movement", PartUse.USED).with("quantity", "1");
    return Answers.page(page(id, "use", form));
  }

  @POST
  @Path("work-lines/{id}/parts")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response use(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    book.ofLine(viewer, id);
    Form form = Form.of(posted);
    String movement =
        form.required("movement", "Movement").choice(PartUse.USED, PartUse.ON, PartUse.OFF);
    PartKept kept = form.required("part-class", "Class").choice(PartKept.class);
    String description = form.required("description", "Description").text(120);
    String number = form.optional("part-number", "Part number").text(60);
    String serial = form.optional("serial", "Serial").text(60);
    String batch = form.optional("batch", "Batch").text(60);
    BigDecimal quantity = form.required("quantity", "Quantity").decimal(3);
    String unit = form.optional("unit", "Unit").text(20);
    String evidence = form.optional("evidence", "Evidence").text(200);
    return Answers.filing(
        form,
        () -> {
          parts.used(
              viewer,
              new PartUses.Used(
                  id, movement, kept, description, number, serial, batch, quantity, unit, evidence),
              form.key());
          return "/work-lines/" + id;
        },
        () -> page(id, "use", form));
  }

  @GET
  @Path("part-uses/{id}/evidence")
  @RolesAllowed(Allow.ENGINEER)
  public Response askEvidence(@PathParam("id") UUID id) {
    return Answers.page(change(id, false, Form.blank()));
  }

  @POST
  @Path("part-uses/{id}/evidence")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response evidence(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    UUID line = book.part(viewer, id).lineId();
    Form form = Form.of(posted);
    String evidence = form.required("evidence", "Evidence").text(200);
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          parts.evidence(viewer, id, evidence, reason, form.key());
          return "/work-lines/" + line;
        },
        () -> change(id, false, form));
  }

  @GET
  @Path("part-uses/{id}/voiding")
  @RolesAllowed(Allow.ENGINEER)
  public Response askTakingAway(@PathParam("id") UUID id) {
    return Answers.page(change(id, true, Form.blank()));
  }

  @POST
  @Path("part-uses/{id}/voiding")
  @Consumes(FORMS)
  @RolesAllowed(Allow.ENGINEER)
  public Response takeAway(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    UUID line = book.part(viewer, id).lineId();
    Form form = Form.of(posted);
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          parts.takeAway(viewer, id, reason, form.key());
          return "/work-lines/" + line;
        },
        () -> change(id, true, form));
  }

  private PartChange change(UUID partId, boolean takeAway, Form form) {
    UsedPart part = book.part(viewer, partId);
    WorkOrderSheet sheet = book.ofLine(viewer, part.lineId());
    return new PartChange(sheet, OrderBook.line(sheet, part.lineId()), part, takeAway, form);
  }

  private PartNew page(UUID lineId, String what, Form form) {
    WorkOrderSheet sheet = book.ofLine(viewer, lineId);
    UUID aircraft = sheet.order().aircraftId();
    List<Fitting> fitted =
        components
            .fittings(viewer, List.of(aircraft), View.EVERYTHING)
            .getOrDefault(aircraft, List.of())
            .stream()
            .filter(Fitting::isFitted)
            .toList();
    List<Option> here =
        switch (what) {
          case "removal" -> fitted.stream().map(PartPages::fitted).toList();
          case "fitting" -> stored();
          default -> List.of();
        };
    return new PartNew(
        sheet,
        OrderBook.line(sheet, lineId),
        fleet.sheet(viewer, aircraft, View.EVERYTHING),
        what,
        here,
        what.equals("fitting") ? places(aircraft, fitted) : List.of(),
        PartKept.options(profiles.of(viewer, aircraft, View.EVERYTHING)),
        List.of(
            new Option(PartUse.USED, "Used up"),
            new Option(PartUse.ON, "Fitted"),
            new Option(PartUse.OFF, "Removed")),
        form);
  }

  private static Option fitted(Fitting fitting) {
    return new Option(
        fitting.componentId().toString(),
        fitting.positionLabel()
            + ": "
            + fitting.description()
            + ", part "
            + fitting.partNumber()
            + ", serial "
            + fitting.serial());
  }

  /** Every component that is fitted nowhere. */
  private List<Option> stored() {
    List<ComponentSheet> all = components.sheets(viewer, View.EVERYTHING);
    var histories =
        components.histories(
            viewer, all.stream().map(ComponentSheet::id).toList(), View.EVERYTHING);
    return all.stream()
        .filter(sheet -> histories.get(sheet.id()).placed() == null)
        .map(sheet -> new Option(sheet.id().toString(), sheet.words()))
        .toList();
  }

  private List<Option> places(UUID aircraft, List<Fitting> fitted) {
    List<Option> places = new ArrayList<>();
    fleet
        .positions(viewer, aircraft, View.EVERYTHING)
        .forEach(position -> places.add(new Option(POSITION + position.code(), position.label())));
    fitted.forEach(one -> places.add(inside(one)));
    return places;
  }

  /** By what the larger part is: a magneto of the engine is at the engine's position as well. */
  private static Option inside(Fitting one) {
    return new Option(
        INSIDE + one.componentId(),
        "In %s, part %s, serial %s".formatted(one.description(), one.partNumber(), one.serial()));
  }

  private Form today() {
    return Form.blank().with("on", Shown.typed(viewer.dateOf(clock.instant())));
  }
}
