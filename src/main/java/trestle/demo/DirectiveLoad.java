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
import trestle.directives.Applicability;
import trestle.directives.Assessments;
import trestle.directives.Directives;
import trestle.directives.NewAssessment;
import trestle.directives.NewDirective;
import trestle.directives.NewParagraph;
import trestle.directives.ParagraphSheet;
import trestle.directives.Searches;
import trestle.directives.Serials;
import trestle.directives.Status;
import trestle.directives.Verdict;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.web.Role;
import trestle.web.Viewer;

/** Enters the invented directives, what was judged of each, and the search log. */
@ApplicationScoped
class DirectiveLoad {
  private static final Duration EVENING = Duration.ofHours(12);
  private static final String SOURCE = "Invented authority, list of directives";

  @Inject Directives directives;
  @Inject Assessments assessments;
  @Inject Status status;
  @Inject Searches searches;

  /**
   * Enters all of them and files what was judged on the first day.
   *
   * @param at the moment at which it is judged
   * @param programme takes up the requirements that apply, by registration and code
   */
  void file(
      Viewer viewer,
      Instant at,
      LocalDate today,
      FleetLoad.Registered fleet,
      ProgrammeLoad.Filed programme) {
    Map<String, ParagraphSheet> paragraphs = new HashMap<>();
    for (SeedFile.Line line : SeedFile.lines("directives.csv")) {
      paragraphs.put(line.text("code"), enter(viewer, line, today));
    }
    for (SeedFile.Line line : SeedFile.lines("assessments.csv")) {
      if (!line.has("days_ago")) {
        UUID aircraft = fleet.aircraft(line.text("registration"));
        ParagraphSheet paragraph = paragraphs.get(line.text("code"));
        UUID assessment = assessments.assess(viewer, judged(line, paragraph, fleet, at));
        UUID requirement = requirement(viewer, aircraft, assessment, viewer.dateOf(at));
        if (requirement != null) {
          programme
              .requirements()
              .put(line.text("registration") + " " + line.text("code"), requirement);
        }
      }
    }
  }

  /** What was judged later, in the evening, after the work of that day. */
  List<Event> later(WorkLoad.Stage stage) {
    List<Event> events = new ArrayList<>();
    FlightPlan plan = stage.totals().values().iterator().next().plan();
    for (SeedFile.Line line : SeedFile.lines("assessments.csv")) {
      if (line.has("days_ago")) {
        Viewer by = stage.cast().of(line.text("by"));
        Instant at = plan.morning(line.count("days_ago")).plus(EVENING);
        events.add(
            new Event.Filed(
                at,
                () ->
                    assessments.assess(
                        by, judged(line, paragraph(by, line.text("code")), stage.fleet(), at))));
      }
    }
    return events;
  }

  private ParagraphSheet paragraph(Viewer viewer, String code) {
    String number =
        SeedFile.lines("directives.csv").stream()
            .filter(line -> line.text("code").equals(code))
            .findFirst()
            .orElseThrow()
            .text("number");
    return directives.all(viewer).stream()
        .filter(one -> one.number().equals(number))
        .map(one -> directives.paragraphs(viewer, one.id()).get(0))
        .findFirst()
        .orElseThrow();
  }

  /** Each month the list was searched; the next search is to come. */
  List<Event> searches(WorkLoad.Stage stage, LocalDate today) {
    Viewer by = stage.cast().any(Role.CONTROLLER);
    List<Event> events = new ArrayList<>();
    for (int daysAgo = 318; daysAgo > 0; daysAgo -= 30) {
      LocalDate on = today.minusDays(daysAgo);
      Instant recorded = on.atTime(9, 10).atZone(stage.cast().zone()).toInstant();
      events.add(
          new Event.Filed(
              recorded.plus(Duration.ofSeconds(7)),
              () -> {
                searches.file(
                    by, SOURCE, on.minusDays(1), on.plusDays(30), "Nothing about our types", null);
                return null;
              }));
    }
    return events;
  }

  private ParagraphSheet enter(Viewer viewer, SeedFile.Line line, LocalDate today) {
    UUID directive =
        directives.enter(
            viewer,
            new NewDirective(
                line.text("issuer"),
                line.text("number"),
                false,
                true,
                line.text("revision"),
                today.minusDays(line.count("effective_days_ago")),
                line.text("title"),
                line.text("text_reference"),
                null,
                List.of()),
            null);
    Applicability whom =
        new Applicability(
            Applicability.About.parse(line.text("about")),
            Arrays.asList(line.text("names").split(" \\| ")),
            Serials.parse(line.text("serials")));
    UUID paragraph =
        directives.addParagraph(
            viewer,
            directive,
            NewParagraph.of(line.text("label"), line.text("task"), whom, rule(line)),
            null);
    return directives.paragraph(viewer, paragraph);
  }

  private static Rule rule(SeedFile.Line line) {
    if (line.has("hours_at")) {
      return Rule.first(Limit.Fixed.at(Counter.HOURS, line.text("hours_at"))).onlyOnce();
    }
    return Rule.first(
        Limit.Every.of(Counter.HOURS, line.text("hours")).soon(line.text("hours_soon")));
  }

  private static NewAssessment judged(
      SeedFile.Line line, ParagraphSheet paragraph, FleetLoad.Registered fleet, Instant at) {
    Verdict verdict = Verdict.parse(line.text("verdict"));
    String why = line.text("why");
    if (!line.has("serial")) {
      UUID aircraft = fleet.aircraft(line.text("registration"));
      return NewAssessment.ofAircraft(paragraph, aircraft, verdict, why, at);
    }
    UUID part = fleet.serials().get(line.text("serial"));
    NewAssessment asFitted = NewAssessment.asFitted(paragraph, part, verdict, why, at);
    return line.text("rests_on").equals("part") ? asFitted.followingThePart() : asFitted;
  }

  /** What an assessment opened, or null. */
  private UUID requirement(Viewer viewer, UUID aircraft, UUID assessment, LocalDate day) {
    return status
        .ofAircraft(viewer, List.of(aircraft), View.asAt(day))
        .getOrDefault(aircraft, List.of())
        .stream()
        .map(line -> line.judged().assessment())
        .filter(one -> one != null && one.id().equals(assessment))
        .map(one -> one.requirementId())
        .filter(id -> id != null)
        .findFirst()
        .orElse(null);
  }
}
