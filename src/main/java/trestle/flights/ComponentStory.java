package trestle.flights;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.ComponentEventKind;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentSheet;
import trestle.fleet.CounterWords;
import trestle.fleet.Fitting;
import trestle.fleet.Placement;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.web.Shown;

/** What happened to a component, in words. */
final class ComponentStory {
  /** Something that happened to it; {@code record} is what may be corrected, or null. */
  public record Event(Instant moment, String at, String what, UUID record) {}

  private final ComponentLine line;
  private final ComponentHistory history;
  private final Map<UUID, AircraftSheet> aircraft;
  private final Map<UUID, ComponentSheet> others;
  private final ZoneId zone;

  /**
   * @param others the components that it sat in, and that sat in it
   */
  ComponentStory(
      ComponentLine line,
      Map<UUID, AircraftSheet> aircraft,
      Map<UUID, ComponentSheet> others,
      ZoneId zone) {
    this.line = line;
    this.history = line.history();
    this.aircraft = aircraft;
    this.others = others;
    this.zone = zone;
  }

  /**
   * All that happened to it, the newest first.
   *
   * @param inside what was put into it
   */
  List<Event> events(List<Placement> inside) {
    List<Event> events = new ArrayList<>();
    for (ComponentHistory.Opening opening : history.openings()) {
      events.add(event(opening.at(), begins(opening), opening.id()));
    }
    for (ComponentHistory.Overhaul overhaul : history.overhauls()) {
      events.add(event(overhaul.at(), "Overhauled: " + overhaul.reference(), overhaul.id()));
    }
    for (ComponentHistory.Event each : history.events()) {
      events.add(event(each.at(), words(each), each.id()));
    }
    for (ComponentHistory.MeterReading each : history.meterReadings()) {
      String shown = Shown.exact(new Hours(each.reading()));
      String replaced =
          each.replacedBy() == null
              ? ""
              : "; replaced by one that showed " + Shown.exact(new Hours(each.replacedBy())) + " h";
      events.add(event(each.at(), "Its own meter read " + shown + " h" + replaced, each.id()));
    }
    for (Placement each : history.placements()) {
      String place = place(each);
      events.add(event(each.from(), "Fitted to " + place, each.fitmentId()));
      if (each.to() != null) {
        events.add(
            event(
                each.to(),
                "Removed from " + place + removed(each) + between(each.to()),
                each.removalId()));
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

  /** Between which flights, by their landings. */
  private String between(Instant moment) {
    UsageLine.Around flights = line.left(moment);
    if (flights == null || flights.before() == null && flights.after() == null) {
      return "";
    }
    if (flights.before() == null) {
      return "; before the flight that landed " + Shown.moment(flights.after(), zone);
    }
    return "; after the flight that landed "
        + Shown.moment(flights.before(), zone)
        + (flights.after() == null
            ? ""
            : " and before the one that landed " + Shown.moment(flights.after(), zone));
  }

  private static String begins(ComponentHistory.Opening opening) {
    return CounterWords.of(opening.counter())
        + " when these records began: since new "
        + exact(opening.counter(), opening.sinceNew())
        + ", since overhaul "
        + exact(opening.counter(), opening.sinceOverhaul());
  }

  private Event event(Instant moment, String what, UUID record) {
    return new Event(moment, Shown.moment(moment, zone), what, record);
  }

  /** Where it is; null where it is fitted nowhere. */
  String place() {
    if (history.fitted() != null) {
      return place(history.fitted(), aircraft);
    }
    return history.placed() == null ? null : place(history.placed());
  }

  private String place(Placement placement) {
    return placement.isInComponent()
        ? others.get(placement.assemblyId()).words() + ", " + placement.place()
        : mark(placement.aircraftId(), aircraft) + ", " + placement.positionLabel();
  }

  static String place(Fitting fitting, Map<UUID, AircraftSheet> aircraft) {
    return mark(fitting.aircraftId(), aircraft) + ", " + fitting.positionLabel();
  }

  private static String mark(UUID aircraftId, Map<UUID, AircraftSheet> aircraft) {
    AircraftSheet sheet = aircraft.get(aircraftId);
    return sheet == null ? "another aircraft" : sheet.registration();
  }

  private static String exact(Counter counter, Long units) {
    if (units == null) {
      return "not known";
    }
    return counter.inHours() ? Shown.exact(new Hours(units)) + " h" : Shown.count(units);
  }
}
