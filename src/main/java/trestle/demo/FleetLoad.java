package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.Fleet;
import trestle.fleet.HoursBasis;
import trestle.fleet.PartKind;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.fleet.Rounding;
import trestle.reckoning.Counter;
import trestle.reckoning.HoursStyle;
import trestle.web.Viewer;

/** Registers the aircraft of the seed with their engines and propellers. */
@ApplicationScoped
class FleetLoad {
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Fitments fitments;

  /** What was registered, by registration; parts by registration and position, or by serial. */
  record Registered(
      Map<String, UUID> aircraft, Map<String, UUID> parts, Map<String, UUID> serials) {

    UUID aircraft(String registration) {
      return aircraft.get(registration);
    }

    /** The part in a position, or null for the aircraft itself. */
    UUID part(String registration, String position) {
      return position.isEmpty() ? null : parts.get(registration + " " + position);
    }
  }

  Registered register(Viewer viewer, Instant at, LocalDate today, Map<String, Totals> totals) {
    Registered registered = new Registered(new HashMap<>(), new HashMap<>(), new HashMap<>());
    for (SeedFile.Line line : SeedFile.lines("aircraft.csv")) {
      String registration = line.text("registration");
      UUID id = fleet.register(viewer, registering(line, at, totals.get(registration)));
      registered.aircraft().put(registration, id);
    }
    for (SeedFile.Line line : SeedFile.lines("components.csv")) {
      String registration = line.text("registration");
      String position = line.text("position");
      UUID part = components.register(viewer, part(line, at, today, totals.get(registration)));
      UUID aircraft = registered.aircraft(registration);
      fitments.fit(viewer, new Fitments.Fit(part, aircraft, position, at, null));
      registered.parts().put(registration + " " + position, part);
    }
    return registered;
  }

  private static Fleet.Registering registering(SeedFile.Line line, Instant at, Totals totals) {
    Particulars particulars =
        new Particulars(
            line.text("registration"),
            line.text("type"),
            line.text("manufacturer"),
            line.text("serial"),
            line.count("built_year"),
            HoursBasis.parse(line.text("hours_basis")),
            line.text("meter_name"),
            Rounding.EXACT,
            HoursStyle.valueOf(line.text("shown_as").toUpperCase(java.util.Locale.ROOT)),
            line.text("fuel_unit"),
            false);
    Map<Counter, Long> openings =
        Map.of(
            Counter.HOURS, totals.secondsAt(at),
            Counter.LANDINGS, totals.landingsAt(at));
    List<Position> positions = line.count("engines") == 1 ? Position.single() : Position.twin();
    return new Fleet.Registering(particulars, positions, at, openings, null);
  }

  private static Components.Registering part(
      SeedFile.Line line, Instant at, LocalDate today, Totals totals) {
    long flown = totals.flownSince(at);
    Components.Run run =
        new Components.Run(
            line.minutes("hours_since_new_today") * 60 - flown,
            line.minutes("hours_since_overhaul_today") * 60 - flown);
    return new Components.Registering(
        PartKind.parse(line.text("kind")),
        line.text("part_number"),
        line.text("serial"),
        line.text("description"),
        line.text("manufacturer"),
        at,
        Map.of(Counter.HOURS, run),
        today.minusDays(line.count("new_days_ago")),
        today.minusDays(line.count("overhauled_days_ago")),
        null);
  }
}
