package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.flights.Rates;
import trestle.programme.Compliances;
import trestle.programme.Extensions;
import trestle.programme.NewCompliance;
import trestle.programme.NewExtension;
import trestle.reckoning.Counter;
import trestle.reckoning.Usage;
import trestle.web.Role;
import trestle.web.Viewer;

/** Turns the work of the story into compliances, with the extension and the stated rate. */
@ApplicationScoped
class WorkLoad {
  @Inject Compliances compliances;
  @Inject Extensions extensions;
  @Inject Rates rates;
  @Inject Telling telling;

  /** What the events of one loading name. */
  record Stage(
      Cast cast,
      Instant opened,
      FleetLoad.Registered fleet,
      ProgrammeLoad.Filed programme,
      Map<String, Totals> totals) {}

  List<Event> work(AircraftStory story, Stage stage) {
    Map<String, String> licences = new HashMap<>();
    SeedFile.lines("people.csv")
        .forEach(p -> licences.put(p.text("sign_in_name"), p.text("licence_number")));
    List<Event> events = new ArrayList<>();
    for (Work work : story.work()) {
      NewCompliance asked = compliance(work, stage, licences, events.size());
      Viewer by = stage.cast().of(work.by());
      Instant recorded = work.at().plus(Duration.ofMinutes(work.transcribed() ? 95 : 20));
      // Old papers from before the records began were copied on the first day.
      Instant earliest = stage.opened().plus(Duration.ofMinutes(90));
      events.add(
          new Event.Filed(
              recorded.isBefore(earliest) ? earliest : recorded,
              () -> compliances.file(by, asked)));
    }
    return events;
  }

  private static NewCompliance compliance(
      Work work, Stage stage, Map<String, String> licences, int number) {
    return new NewCompliance(
        stage.programme().requirement(work.registration(), work.requirement()),
        stage.fleet().aircraft(work.registration()),
        stage.fleet().part(work.registration(), work.position()),
        false,
        work.at(),
        readings(work, stage),
        work.transcribed() ? "" : "FS-W-" + work.registration().substring(3) + "-" + (101 + number),
        work.transcribed() ? "signature on the old paper" : "",
        work.transcribed() ? "" : licences.get(work.by()),
        work.transcribedFrom(),
        true,
        null,
        work.remarks(),
        null);
  }

  /** What the signer read off: the aircraft's hours, for work on it within these records. */
  private static Usage readings(Work work, Stage stage) {
    if (!work.position().isEmpty() || !work.at().isAfter(stage.opened())) {
      return Usage.NONE;
    }
    long seconds = stage.totals().get(work.registration()).secondsAt(work.at());
    return Usage.ofUnits(Map.of(Counter.HOURS, seconds));
  }

  List<Event> extensions(Stage stage) {
    List<Event> events = new ArrayList<>();
    for (SeedFile.Line line : SeedFile.lines("extensions.csv")) {
      String registration = line.text("registration");
      FlightPlan plan = stage.totals().get(registration).plan();
      Instant at = plan.momentAt(plan.placeAgo(line.minutes("granted_hours_ago")));
      NewExtension asked =
          new NewExtension(
              stage.programme().requirement(registration, line.text("requirement")),
              stage.fleet().aircraft(registration),
              stage.fleet().part(registration, line.text("position")),
              at.atZone(plan.zone()).toLocalDate(),
              List.of(0),
              newDue(line),
              line.text("approved_by"),
              line.text("reference"),
              "",
              null);
      Viewer by = stage.cast().any(Role.CONTROLLER);
      Instant recorded = at.plus(Duration.ofMinutes(30));
      events.add(new Event.Filed(recorded, () -> grant(by, asked)));
    }
    return events;
  }

  /** What is due is reckoned from all that was flown by then. */
  private UUID grant(Viewer by, NewExtension asked) {
    telling.reckon(by, List.of(asked.aircraftId()));
    return extensions.grant(by, asked);
  }

  /** In the part's time since new: where its overhaul was, and what it may run since. */
  private static long newDue(SeedFile.Line line) {
    return SeedFile.lines("components.csv").stream()
        .filter(part -> part.text("registration").equals(line.text("registration")))
        .filter(part -> part.text("position").equals(line.text("position")))
        .mapToLong(
            part ->
                (part.minutes("hours_since_new_today")
                        - part.minutes("hours_since_overhaul_today")
                        + line.minutes("hours_since_overhaul"))
                    * 60)
        .findFirst()
        .orElseThrow();
  }

  List<Event> rates(Stage stage) {
    List<Event> events = new ArrayList<>();
    for (SeedFile.Line line : SeedFile.lines("rates.csv")) {
      String registration = line.text("registration");
      FlightPlan plan = stage.totals().get(registration).plan();
      UUID aircraft = stage.fleet().aircraft(registration);
      BigDecimal perDay = new BigDecimal(line.text("hours_a_day"));
      Viewer by = stage.cast().any(Role.CONTROLLER);
      events.add(
          new Event.Filed(
              plan.morning(line.count("stated_days_ago")).plus(Duration.ofMinutes(45)),
              () -> {
                rates.state(by, aircraft, Counter.HOURS, perDay, null);
                return null;
              }));
    }
    return events;
  }
}
