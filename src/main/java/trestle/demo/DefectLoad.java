package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.defects.DefectDraft;
import trestle.defects.Defects;
import trestle.defects.Judgement;
import trestle.defects.Repeats;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * The defects of the story. What was done about them is copied from the paper technical log, since
 * nobody can sign for the demo's people.
 */
@ApplicationScoped
class DefectLoad {
  private static final Duration AFTERNOON = Duration.ofHours(9);

  @Inject Defects defects;
  @Inject Repeats repeats;

  List<Event> events(WorkLoad.Stage stage) {
    List<Event> events = new ArrayList<>();
    Map<String, UUID> last = new HashMap<>();
    int page = 112;
    for (SeedFile.Line line : SeedFile.lines("defects.csv")) {
      events.addAll(told(line, stage, last, page++));
    }
    return events;
  }

  /**
   * @param last the defect told last of each aircraft
   */
  private List<Event> told(
      SeedFile.Line line, WorkLoad.Stage stage, Map<String, UUID> last, int page) {
    String registration = line.text("registration");
    FlightPlan plan = stage.totals().get(registration).plan();
    Instant found = plan.morning(line.count("days_ago")).plus(AFTERNOON);
    Viewer by = stage.cast().of(line.text("by"));
    UUID[] told = new UUID[1];
    List<Event> events = new ArrayList<>();
    events.add(
        new Event.Filed(
            found,
            () -> {
              told[0] = reported(line, stage.fleet().aircraft(registration), by, found);
              return told[0];
            }));
    if (line.has("fixed_days_ago")) {
      Instant fixed = plan.morning(line.count("fixed_days_ago")).plus(AFTERNOON);
      Viewer copying = stage.cast().any(Role.CONTROLLER);
      events.add(
          new Event.Filed(
              fixed.plus(Duration.ofMinutes(50)),
              () -> {
                UUID earlier = last.put(registration, told[0]);
                if (line.yes("repeats_previous")) {
                  repeats.say(copying, told[0], earlier, true, "", null);
                }
                return defects.transcribe(copying, told[0], old(line, page, fixed));
              }));
    }
    return events;
  }

  private UUID reported(SeedFile.Line line, UUID aircraft, Viewer by, Instant found) {
    DefectDraft draft =
        new DefectDraft(
            line.text("words"),
            line.text("system"),
            line.text("place"),
            null,
            null,
            Judgement.parse(line.text("judgement")),
            null,
            false,
            "",
            found);
    return defects.report(by, aircraft, draft, List.of(), null, null).entryId();
  }

  private static Defects.OldRectification old(SeedFile.Line line, int page, Instant fixed) {
    return new Defects.OldRectification(
        line.text("done"),
        line.text("data_reference"),
        "technical log, page " + page,
        "S. Brandt",
        fixed);
  }
}
