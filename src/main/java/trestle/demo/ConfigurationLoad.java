package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import trestle.fleet.Configurations;
import trestle.fleet.Configurations.NewEquipment;
import trestle.fleet.Configurations.NewModification;
import trestle.fleet.Configurations.NewWeight;
import trestle.web.Viewer;

/** What aircraft carry beside their numbered parts: told with the day on which it was done. */
@ApplicationScoped
class ConfigurationLoad {
  private static final Duration WORK_DONE = Duration.ofHours(10);
  private static final Duration FILED = Duration.ofMinutes(50);

  @Inject Configurations configurations;

  /** One filing, by whom, for which aircraft and when it happened. */
  private interface Filing {
    UUID file(Viewer by, UUID aircraft, SeedFile.Line line, Instant at);
  }

  List<Event> events(WorkLoad.Stage stage) {
    List<Event> events = new ArrayList<>();
    events.addAll(events(stage, "modifications.csv", this::modification));
    events.addAll(events(stage, "equipment.csv", this::equipment));
    events.addAll(events(stage, "weights.csv", this::weight));
    return events;
  }

  /** In the evening of its day; without one, on the first day of these records. */
  private static List<Event> events(WorkLoad.Stage stage, String file, Filing filing) {
    Function<SeedFile.Line, Event> event =
        line -> {
          FlightPlan plan = stage.totals().get(line.text("registration")).plan();
          Instant at =
              line.has("days_ago")
                  ? plan.morning(line.count("days_ago")).plus(WORK_DONE)
                  : stage.opened();
          UUID aircraft = stage.fleet().aircraft(line.text("registration"));
          Viewer by = stage.cast().of(line.text("by"));
          return new Event.Filed(at.plus(FILED), () -> filing.file(by, aircraft, line, at));
        };
    return SeedFile.lines(file).stream().map(event).toList();
  }

  private UUID modification(Viewer by, UUID aircraft, SeedFile.Line line, Instant at) {
    return configurations.state(
        by,
        aircraft,
        new NewModification(
            null,
            line.text("code"),
            line.text("title"),
            line.text("kind").equals("repair"),
            line.yes("major"),
            line.text("approval"),
            line.text("form_reference"),
            line.text("systems"),
            line.text("remarks"),
            true,
            at,
            null,
            null));
  }

  private UUID equipment(Viewer by, UUID aircraft, SeedFile.Line line, Instant at) {
    return configurations.state(
        by,
        aircraft,
        new NewEquipment(
            null,
            line.text("name"),
            line.text("state"),
            line.text("placard"),
            line.text("remarks"),
            at,
            null));
  }

  private UUID weight(Viewer by, UUID aircraft, SeedFile.Line line, Instant at) {
    return configurations.weigh(
        by,
        aircraft,
        new NewWeight(
            line.text("kind").equals("weighing"),
            line.text("what"),
            new BigDecimal(line.text("weight")),
            new BigDecimal(line.text("arm")),
            line.text("weight_unit"),
            line.text("arm_unit"),
            line.text("reference"),
            at,
            null,
            false,
            null,
            null));
  }
}
