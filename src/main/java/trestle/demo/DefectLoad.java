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
import trestle.defects.DeferralUnit;
import trestle.defects.Deferrals;
import trestle.defects.Judgement;
import trestle.defects.NewDeferral;
import trestle.defects.OldPaper;
import trestle.defects.Rectifications;
import trestle.defects.Repeats;
import trestle.reckoning.DeferralClock;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * The defects of the story. What was done about them, and how they were deferred, is copied from
 * the paper technical log, since nobody can sign for the demo's people.
 */
@ApplicationScoped
class DefectLoad {
  private static final Duration AFTERNOON = Duration.ofHours(9);
  private static final String SIGNER = "S. Brandt";

  @Inject Defects defects;
  @Inject Rectifications rectifications;
  @Inject Deferrals deferrals;
  @Inject Repeats repeats;

  List<Event> events(WorkLoad.Stage stage) {
    Map<String, SeedFile.Line> deferred = new HashMap<>();
    SeedFile.lines("deferrals.csv").forEach(line -> deferred.put(line.text("defect"), line));
    List<Event> events = new ArrayList<>();
    Map<String, UUID> last = new HashMap<>();
    int page = 112;
    for (SeedFile.Line line : SeedFile.lines("defects.csv")) {
      events.addAll(told(line, deferred.get(line.text("key")), stage, last, page++));
    }
    return events;
  }

  /**
   * @param deferral of the defect, or null
   * @param last the defect told last of each aircraft
   */
  private List<Event> told(
      SeedFile.Line line,
      SeedFile.Line deferral,
      WorkLoad.Stage stage,
      Map<String, UUID> last,
      int page) {
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
    Viewer copying = stage.cast().any(Role.CONTROLLER);
    if (deferral != null) {
      Instant decided = found.plus(Duration.ofHours(2));
      OldPaper paper = new OldPaper(paper(page), SIGNER);
      events.add(
          new Event.Filed(
              decided.plus(Duration.ofMinutes(50)),
              () ->
                  deferrals.transcribe(
                      copying,
                      deferral(deferral, line.text("registration"), told[0], decided, stage),
                      paper,
                      null)));
    }
    if (line.has("fixed_days_ago")) {
      Instant fixed = plan.morning(line.count("fixed_days_ago")).plus(AFTERNOON);
      events.add(
          new Event.Filed(
              fixed.plus(Duration.ofMinutes(50)),
              () -> {
                UUID earlier = last.put(registration, told[0]);
                if (line.yes("repeats_previous")) {
                  repeats.say(copying, told[0], earlier, true, "", null);
                }
                return rectifications.transcribe(copying, told[0], old(line, page, fixed), null);
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

  private static Rectifications.Old old(SeedFile.Line line, int page, Instant fixed) {
    return new Rectifications.Old(
        line.text("done"), line.text("data_reference"), paper(page), SIGNER, fixed);
  }

  private static NewDeferral deferral(
      SeedFile.Line line, String registration, UUID defect, Instant at, WorkLoad.Stage stage) {
    return new NewDeferral(
        defect,
        at,
        Role.ENGINEER,
        line.text("licence"),
        line.has("category") ? listed(line) : null,
        line.has("category") ? null : unlisted(line, registration, stage),
        new NewDeferral.Conditions(
            line.text("limitation"),
            line.text("forbids"),
            line.text("placard"),
            line.text("placard_place"),
            line.text("m_procedure"),
            line.text("o_procedure")));
  }

  private static NewDeferral.Listed listed(SeedFile.Line line) {
    return new NewDeferral.Listed(
        line.text("list"),
        line.text("item"),
        DeferralClock.Category.valueOf(line.text("category")),
        line.has("unit") ? DeferralUnit.parse(line.text("unit")) : null,
        line.has("amount") ? (long) line.count("amount") : null);
  }

  private static NewDeferral.Unlisted unlisted(
      SeedFile.Line line, String registration, WorkLoad.Stage stage) {
    return new NewDeferral.Unlisted(
        line.text("made_safe"),
        line.text("not_required"),
        line.text("no_hazard"),
        SIGNER,
        stage.programme().requirement(registration, line.text("due_with")),
        null);
  }

  private static String paper(int page) {
    return "technical log, page " + page;
  }
}
