package trestle.flights;

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
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.ComponentEventKind;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.CounterWords;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.PartSheet;
import trestle.fleet.Parts;
import trestle.fleet.Placement;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Scale;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Pager;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Components, what they have run, and where they were. */
@Path("/components")
@RequestScoped
public class ComponentPages {
  private static final int PAGE = 50;

  @Inject Components components;
  @Inject Parts parts;
  @Inject ComponentLines lines;
  @Inject Fleet fleet;
  @Inject Views views;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentList(List<Line> lines, Pager pager, AsAt at, boolean mayRegister)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentPage(
      ComponentSheet component,
      String place,
      UUID aircraftId,
      String state,
      boolean placed,
      List<Run> runs,
      List<Inner> inside,
      List<Event> events,
      UUID part,
      AsAt at,
      boolean mayWork)
      implements TemplateInstance {}

  /** A component in the list. */
  public record Line(
      ComponentSheet sheet,
      String place,
      UUID aircraftId,
      String state,
      String sinceNew,
      String sinceOverhaul) {}

  /** What sits in it, and where. */
  public record Inner(UUID id, String words, String place) {}

  /** One counter of a component, in words. */
  public record Run(String name, String sinceNew, String sinceOverhaul, String sinceFitted) {}

  /** Something that happened to it; {@code record} is what may be corrected, or null. */
  public record Event(Instant moment, String at, String what, UUID record) {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all(@QueryParam("page") Integer page, @Context UriInfo uri) {
    AsAt at = at(uri);
    List<ComponentSheet> sheets = components.sheets(viewer, at.view());
    Pager pager = Pager.of(page, PAGE, sheets.size(), uri);
    List<ComponentSheet> shown =
        sheets.subList(pager.offset(), Math.min(sheets.size(), pager.offset() + PAGE));
    List<UUID> ids = shown.stream().map(ComponentSheet::id).toList();
    Map<UUID, ComponentLine> used = lines.of(viewer, ids, at.view());
    Map<UUID, AircraftSheet> aircraft = aircraft(at.view());
    return Answers.page(
        at.form().isBad() ? 422 : 200,
        new ComponentList(
            shown.stream().map(sheet -> line(used.get(sheet.id()), aircraft)).toList(),
            pager,
            at,
            viewer.isAny(Role.OWNER, Role.CONTROLLER)));
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @Context UriInfo uri) {
    AsAt at = at(uri);
    ComponentLine line = lines.of(viewer, id, at.view());
    ComponentHistory history = line.history();
    Map<UUID, AircraftSheet> aircraft = aircraft(at.view());
    Fitting fitted = history.fitted();
    List<Placement> inside = components.inside(viewer, id, at.view());
    Map<UUID, ComponentSheet> others = others(history, inside, at.view());
    return Answers.page(
        at.form().isBad() ? 422 : 200,
        new ComponentPage(
            history.sheet(),
            place(history, aircraft, others),
            fitted == null ? null : fitted.aircraftId(),
            history.state().words(),
            history.placed() != null,
            runs(line, style(fitted, aircraft)),
            inner(inside, others),
            events(history, inside, aircraft, others),
            parts
                .of(viewer, history.sheet().partNumber(), View.EVERYTHING)
                .map(PartSheet::id)
                .orElse(null),
            at,
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)));
  }

  /** The other components that its page names. */
  private Map<UUID, ComponentSheet> others(
      ComponentHistory history, List<Placement> inside, View view) {
    Set<UUID> ids = new HashSet<>();
    inside.forEach(each -> ids.add(each.componentId()));
    history.placements().stream()
        .filter(Placement::isInComponent)
        .forEach(each -> ids.add(each.assemblyId()));
    return components.sheets(viewer, ids, View.EVERYTHING);
  }

  private static List<Inner> inner(List<Placement> inside, Map<UUID, ComponentSheet> others) {
    return inside.stream()
        .filter(Placement::isOpen)
        .map(
            each ->
                new Inner(each.componentId(), others.get(each.componentId()).words(), each.place()))
        .sorted(Comparator.comparing(Inner::place))
        .toList();
  }

  private Line line(ComponentLine line, Map<UUID, AircraftSheet> aircraft) {
    Fitting fitted = line.history().fitted();
    HoursStyle style = style(fitted, aircraft);
    return new Line(
        line.history().sheet(),
        fitted == null ? "" : place(fitted, aircraft),
        fitted == null ? null : fitted.aircraftId(),
        line.history().state().words(),
        words(Counter.HOURS, line.sinceNew(Counter.HOURS), style),
        words(Counter.HOURS, line.sinceOverhaul(Counter.HOURS), style));
  }

  private static List<Run> runs(ComponentLine line, HoursStyle style) {
    List<Run> runs = new ArrayList<>();
    line.counters().stream()
        .sorted(Comparator.reverseOrder())
        .forEach(
            counter ->
                runs.add(
                    new Run(
                        CounterWords.of(counter)
                            + (line.isEstimated(counter) ? " (estimated)" : ""),
                        words(counter, line.sinceNew(counter), style),
                        words(counter, line.sinceOverhaul(counter), style),
                        words(counter, line.sinceFitted(counter), style))));
    return runs;
  }

  private List<Event> events(
      ComponentHistory history,
      List<Placement> inside,
      Map<UUID, AircraftSheet> aircraft,
      Map<UUID, ComponentSheet> others) {
    List<Event> events = new ArrayList<>();
    for (ComponentHistory.Opening opening : history.openings()) {
      events.add(event(opening.at(), begins(opening), null));
    }
    for (ComponentHistory.Overhaul overhaul : history.overhauls()) {
      events.add(event(overhaul.at(), "Overhauled: " + overhaul.reference(), overhaul.id()));
    }
    for (ComponentHistory.Event each : history.events()) {
      events.add(event(each.at(), words(each), each.id()));
    }
    for (ComponentHistory.MeterReading each : history.meterReadings()) {
      String shown = Shown.exact(new Hours(each.reading()));
      events.add(event(each.at(), "Its own meter read " + shown + " h", each.id()));
    }
    for (Placement each : history.placements()) {
      String place = place(each, aircraft, others);
      events.add(event(each.from(), "Fitted to " + place, each.fitmentId()));
      if (each.to() != null) {
        events.add(event(each.to(), "Removed from " + place + removed(each), each.removalId()));
      }
    }
    for (Placement each : inside) {
      String what = others.get(each.componentId()).words() + ", " + each.place();
      events.add(event(each.from(), "Took in " + what, null));
      if (each.to() != null) {
        events.add(event(each.to(), "Gave up " + what, null));
      }
    }
    events.sort(Comparator.comparing(Event::moment).reversed());
    return events;
  }

  /** "Sent out to Vale Engines: metal in the oil (Certificate 77)". */
  private static String words(ComponentHistory.Event event) {
    String whom =
        event.whom().isEmpty()
            ? ""
            : (event.kind() == ComponentEventKind.SENT_OUT ? " to " : " by ") + event.whom();
    String why = event.why().isEmpty() ? "" : ": " + event.why();
    String reference = event.reference().isEmpty() ? "" : " (" + event.reference() + ")";
    String restarts = event.restarts() ? "; time since new begins again" : "";
    return event.kind().label() + whom + why + reference + restarts;
  }

  private static String removed(Placement placement) {
    String scheduled = placement.scheduled() ? ", its time had come" : "";
    return scheduled + (placement.why().isEmpty() ? "" : ": " + placement.why());
  }

  private static String begins(ComponentHistory.Opening opening) {
    return CounterWords.of(opening.counter())
        + " when these records began: since new "
        + exact(opening.counter(), opening.sinceNew())
        + ", since overhaul "
        + exact(opening.counter(), opening.sinceOverhaul());
  }

  private Event event(Instant moment, String what, UUID record) {
    return new Event(moment, Shown.moment(moment, viewer.flightZone()), what, record);
  }

  /** Where it is; null where it is fitted nowhere. */
  private static String place(
      ComponentHistory history,
      Map<UUID, AircraftSheet> aircraft,
      Map<UUID, ComponentSheet> others) {
    if (history.fitted() != null) {
      return place(history.fitted(), aircraft);
    }
    return history.placed() == null ? null : place(history.placed(), aircraft, others);
  }

  private static String place(
      Placement placement, Map<UUID, AircraftSheet> aircraft, Map<UUID, ComponentSheet> others) {
    return placement.isInComponent()
        ? others.get(placement.assemblyId()).words() + ", " + placement.place()
        : mark(placement.aircraftId(), aircraft) + ", " + placement.positionLabel();
  }

  private static String place(Fitting fitting, Map<UUID, AircraftSheet> aircraft) {
    return mark(fitting.aircraftId(), aircraft) + ", " + fitting.positionLabel();
  }

  private static String mark(UUID aircraftId, Map<UUID, AircraftSheet> aircraft) {
    AircraftSheet sheet = aircraft.get(aircraftId);
    return sheet == null ? "another aircraft" : sheet.registration();
  }

  private static HoursStyle style(Fitting fitted, Map<UUID, AircraftSheet> aircraft) {
    AircraftSheet sheet = fitted == null ? null : aircraft.get(fitted.aircraftId());
    return sheet == null ? HoursStyle.TENTHS : sheet.shownAs();
  }

  private static String words(Counter counter, long units, HoursStyle style) {
    if (units == Scale.UNKNOWN) {
      return "not known";
    }
    return counter.inHours() ? Shown.used(new Hours(units), style) + " h" : Shown.count(units);
  }

  private static String exact(Counter counter, Long units) {
    if (units == null) {
      return "not known";
    }
    return counter.inHours() ? Shown.exact(new Hours(units)) + " h" : Shown.count(units);
  }

  private Map<UUID, AircraftSheet> aircraft(View view) {
    Map<UUID, AircraftSheet> aircraft = new HashMap<>();
    fleet.sheets(viewer, view).forEach(sheet -> aircraft.put(sheet.id(), sheet));
    return aircraft;
  }

  private AsAt at(UriInfo uri) {
    LocalDate today = viewer.dateOf(clock.instant());
    return AsAt.of(uri.getQueryParameters(), today, day -> views.knownOn(viewer, day));
  }
}
