package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.PartClass;
import trestle.fleet.PartKind;
import trestle.fleet.PartSheet;
import trestle.fleet.Parts;
import trestle.fleet.Spot;
import trestle.programme.NewRequirement;
import trestle.programme.Requirements;
import trestle.reckoning.Counter;
import trestle.web.Viewer;

/**
 * The sheets of part numbers, their limits, the parts that sit in engines, and who swapped them.
 */
@ApplicationScoped
class PartLoad {
  private static final Duration WORK_DONE = Duration.ofHours(10);

  @Inject Parts parts;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject Requirements requirements;

  void state(Viewer viewer) {
    for (SeedFile.Line line : SeedFile.lines("parts.csv")) {
      parts.state(viewer, new Parts.Stating(sheet(line), null, null));
    }
  }

  /** Puts parts into engines, and parts into those; what has no place stays in store. */
  void assemble(Viewer viewer, Instant at, LocalDate today, FleetLoad.Registered fleet) {
    for (SeedFile.Line line : SeedFile.lines("assemblies.csv")) {
      UUID part = components.register(viewer, part(line, at, today));
      fleet.serials().put(line.text("serial"), part);
      if (!line.has("place")) {
        continue;
      }
      String where = line.text("registration") + " " + line.text("position");
      Spot spot = Spot.in(fleet.parts().get(where), line.text("place"));
      fitments.fit(viewer, new Fitments.Fit(part, spot, at, null));
      fleet.parts().put(where + "/" + line.text("place"), part);
    }
  }

  void limit(Viewer viewer, LocalDate from) {
    for (SeedFile.Line line : SeedFile.lines("part-limits.csv")) {
      requirements.create(
          viewer,
          NewRequirement.ofPart(
              line.text("part_number"),
              SeedRules.terms(line, from, List.of()),
              from,
              ProgrammeLoad.APPROVED_BY));
    }
  }

  List<Event> swaps(WorkLoad.Stage stage) {
    List<Event> events = new ArrayList<>();
    FlightPlan plan = stage.totals().values().iterator().next().plan();
    Map<String, UUID> serials = stage.fleet().serials();
    for (SeedFile.Line line : SeedFile.lines("swaps.csv")) {
      Instant at = plan.morning(line.count("days_ago")).plus(WORK_DONE);
      Viewer by = stage.cast().of(line.text("by"));
      Fitments.Swap swap =
          new Fitments.Swap(
              serials.get(line.text("serial")),
              serials.get(line.text("other_serial")),
              at,
              line.text("why"),
              false,
              null);
      events.add(
          new Event.Filed(
              at.plus(Duration.ofMinutes(40)),
              () -> {
                fitments.swap(by, swap);
                return null;
              }));
    }
    return events;
  }

  private static Components.Registering part(SeedFile.Line line, Instant at, LocalDate today) {
    Components.Run run =
        new Components.Run(
            line.minutes("hours_since_new_at_start") * 60,
            line.minutes("hours_since_overhaul_at_start") * 60);
    return new Components.Registering(
        PartKind.OTHER,
        line.text("part_number"),
        line.text("serial"),
        line.text("description"),
        line.text("manufacturer"),
        at,
        new HashMap<>(Map.of(Counter.HOURS, run)),
        today.minusDays(line.count("new_days_ago")),
        today.minusDays(line.count("overhauled_days_ago")),
        null);
  }

  private static PartSheet sheet(SeedFile.Line line) {
    return new PartSheet(
        null,
        null,
        line.text("part_number"),
        line.text("description"),
        PartKind.parse(line.text("kind")),
        PartClass.parse(line.text("class")),
        list(line.text("fits_types")),
        list(line.text("fits_positions")),
        line.text("fits_why"),
        line.yes("life_limited"),
        line.text("data"));
  }

  private static List<String> list(String text) {
    return text.isEmpty() ? List.of() : Arrays.asList(text.split("\\|"));
  }
}
