package trestle.overview;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Stream;
import trestle.directives.Judged;
import trestle.directives.StatusReport;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Configuration;
import trestle.fleet.Configurations;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.programme.Overruns;
import trestle.reckoning.Amount;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.standing.InWords;
import trestle.web.AsAt;
import trestle.web.Reading;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Puts an aircraft's status report together, in any view. */
@ApplicationScoped
public class StatusSheets {
  private static final String NOT_KNOWN = "not known";
  private static final List<Counter> COUNTED = List.of(Counter.HOURS, Counter.LANDINGS);

  @Inject Overviews overviews;
  @Inject UsageLines usage;
  @Inject ComponentLines components;
  @Inject Configurations configurations;
  @Inject StatusReport directives;
  @Inject Overruns overruns;

  @Reading
  public StatusSheet of(Viewer viewer, UUID aircraftId, AsAt asAt) {
    AircraftOverview overview = overviews.aircraft(viewer, aircraftId, asAt);
    View view = asAt.view();
    List<ComponentLine> fitted = fitted(viewer, aircraftId, view);
    InWords words = new InWords(overview.sheet().shownAs());
    List<StatusSheet.Part> parts = new ArrayList<>();
    parts.add(totals(overview.sheet(), usage.of(viewer, aircraftId, view), words));
    parts.add(lives(overview));
    parts.add(sinceOverhaul(fitted, words));
    parts.add(
        items(
            "Inspection status",
            overview,
            row -> List.of("inspection", "service", "lubrication").contains(row.item().kind()),
            "No inspection is recorded."));
    List<StatusReport.Row> judged = directives.of(viewer, overview.sheet(), view);
    parts.add(directives(judged));
    parts.add(
        items(
            "Directives kept as requirements",
            overview,
            row -> row.item().kind().equals("directive") && !isAmong(judged, row),
            "None beside those above."));
    parts.add(
        items(
            "Documents and other limits",
            overview,
            row -> List.of("document", "limitation", "other").contains(row.item().kind()),
            "None is recorded."));
    parts.add(major(configurations.of(viewer, aircraftId, view)));
    parts.add(
        overruns(
            overruns.of(
                viewer, aircraftId, overview.rows().stream().map(DueRow::item).toList(), view),
            words));
    return new StatusSheet(overview.sheet(), asAt.words(), parts);
  }

  private List<ComponentLine> fitted(Viewer viewer, UUID aircraftId, View view) {
    return components.fittedTo(viewer, List.of(aircraftId), view).values().stream()
        .filter(line -> line.history().fitted() != null)
        .filter(line -> line.history().fitted().aircraftId().equals(aircraftId))
        .sorted(Comparator.comparing(line -> line.history().fitted().positionLabel()))
        .toList();
  }

  private static StatusSheet.Part totals(AircraftSheet sheet, UsageLine line, InWords words) {
    List<List<String>> rows = new ArrayList<>();
    Map<Counter, Long> known = line.total().toMap();
    Stream.concat(
            COUNTED.stream(),
            line.counters().stream()
                .filter(counter -> !COUNTED.contains(counter))
                .sorted(Comparator.comparing(Counter::name)))
        .forEach(
            counter ->
                rows.add(
                    List.of(
                        name(counter),
                        known.containsKey(counter)
                            ? words.used(new Amount(known.get(counter), counter.unit()))
                            : NOT_KNOWN)));
    return new StatusSheet.Part(
        "Total times",
        "Hours are " + sheet.basisWords() + ".",
        List.of("Counter", "Total"),
        rows,
        NOT_KNOWN);
  }

  private static StatusSheet.Part lives(AircraftOverview overview) {
    List<List<String>> rows =
        overview.rows().stream()
            .filter(row -> row.item().kind().equals("life-limit"))
            .map(
                row ->
                    List.of(
                        row.title(),
                        row.every(),
                        accumulated(row, overview),
                        row.left().isEmpty() ? row.state() : row.left()))
            .toList();
    return new StatusSheet.Part(
        "Life-limited parts",
        "",
        List.of("Part", "Limit", "Accumulated", "Remaining"),
        rows,
        "No life limit is recorded.");
  }

  private static String accumulated(DueRow row, AircraftOverview overview) {
    InWords words = new InWords(overview.sheet().shownAs());
    return COUNTED.stream()
        .flatMap(
            counter ->
                row.item().usage().total(counter).stream()
                    .map(
                        total ->
                            words.used(total)
                                + (counter.equals(Counter.HOURS)
                                    ? ""
                                    : " " + name(counter).toLowerCase())))
        .reduce((one, other) -> one + ", " + other)
        .orElse(NOT_KNOWN);
  }

  private static StatusSheet.Part sinceOverhaul(List<ComponentLine> fitted, InWords words) {
    List<List<String>> rows =
        fitted.stream()
            .map(
                part ->
                    List.of(
                        part.history().fitted().positionLabel(),
                        part.history().sheet().words(),
                        hours(part.sinceNew(Counter.HOURS), words),
                        hours(part.sinceOverhaul(Counter.HOURS), words),
                        hours(part.sinceFitted(Counter.HOURS), words)))
            .toList();
    return new StatusSheet.Part(
        "Time since overhaul",
        "Of one that was never overhauled, time since overhaul is time since new.",
        List.of("Position", "Component", "Since new", "Since overhaul", "Since fitted"),
        rows,
        "No component is fitted.");
  }

  private static StatusSheet.Part items(
      String title, AircraftOverview overview, Predicate<DueRow> asked, String nothing) {
    List<List<String>> rows =
        overview.rows().stream()
            .filter(asked)
            .map(
                row ->
                    List.of(
                        row.title(),
                        row.source(),
                        row.every(),
                        done(row),
                        due(row),
                        row.left().isEmpty() ? row.state() : row.left()))
            .toList();
    return new StatusSheet.Part(
        title,
        "",
        List.of("Item", "Source", "Rule", "Last done", "Next due", "Left"),
        rows,
        nothing);
  }

  private static String done(DueRow row) {
    return row.lastDoneOn().isEmpty() ? row.lastDone() : row.lastDoneOn() + ", " + row.lastDone();
  }

  private static String due(DueRow row) {
    return row.lines().stream()
        .map(DueLine::due)
        .filter(due -> !due.isEmpty())
        .reduce((one, other) -> one + " or " + other)
        .orElse("");
  }

  private static StatusSheet.Part directives(List<StatusReport.Row> judged) {
    List<List<String>> rows =
        judged.stream()
            .map(
                row ->
                    List.of(
                        row.line().name(),
                        row.line().directive().revision(),
                        row.line().item().words(),
                        state(row.line().judged()),
                        row.method(),
                        row.done(),
                        row.next()))
            .toList();
    return new StatusSheet.Part(
        "Directive status",
        "Directives and bulletins entered here; of those that do not apply, the reason.",
        List.of("Number", "Revision", "For", "State", "Method", "Done", "Next due"),
        rows,
        "No directive entered here is about its type or its parts.");
  }

  private static String state(Judged judged) {
    String why = judged.why() == null || judged.why().isEmpty() ? "" : ": " + judged.why();
    return judged.state().shown() + why;
  }

  private static boolean isAmong(List<StatusReport.Row> judged, DueRow row) {
    return judged.stream()
        .map(each -> each.line().judged().assessment())
        .anyMatch(
            assessment ->
                assessment != null && row.requirementId().equals(assessment.requirementId()));
  }

  private static StatusSheet.Part major(Configuration configuration) {
    return new StatusSheet.Part(
        "Major modifications and repairs",
        "",
        List.of("Code", "What it is", "Approval", "Form", "Since"),
        configuration.major().stream()
            .map(
                mod ->
                    List.of(
                        mod.code(),
                        mod.title() + ", " + mod.kind(),
                        mod.approval(),
                        mod.formReference(),
                        Shown.date(mod.since())))
            .toList(),
        "None is recorded.");
  }

  /** What is past its limit now, and all that ever was done too late or flown past a limit. */
  private static StatusSheet.Part overruns(List<Overruns.Overrun> found, InWords words) {
    return new StatusSheet.Part(
        "Overruns",
        "Work that was done, or is still to be done, after its limit with any tolerance or"
            + " extension, and the flights that landed past it.",
        List.of("Item", "Limit", "What happened", "Flown past it"),
        found.stream()
            .map(
                one ->
                    List.of(
                        one.subject().isAircraft()
                            ? one.title()
                            : one.title() + ", " + one.subject().words(),
                        (one.limit() == null ? NOT_KNOWN : words.due(one.limit()))
                            + (one.mandatory() ? "" : " (recommended)"),
                        (one.doneOn() == null
                                ? "Past its limit and not done"
                                : "Done on " + Shown.date(one.doneOn()))
                            + (one.limit() == null ? "" : ", " + words.past(one.limit())),
                        flown(one)))
            .toList(),
        "None is recorded.");
  }

  private static String flown(Overruns.Overrun one) {
    if (one.flights() == 0) {
      return "no flight";
    }
    String first = Shown.date(one.firstFlight());
    return one.flights() == 1
        ? "1 flight, " + first
        : one.flights() + " flights, " + first + " to " + Shown.date(one.lastFlight());
  }

  private static String hours(long seconds, InWords words) {
    return seconds == Scale.UNKNOWN
        ? NOT_KNOWN
        : words.used(new Amount(seconds, Counter.HOURS.unit()));
  }

  private static String name(Counter counter) {
    String plain = counter.name().replace('-', ' ');
    return counter.equals(Counter.HOURS)
        ? "Time in service"
        : plain.substring(0, 1).toUpperCase() + plain.substring(1);
  }
}
