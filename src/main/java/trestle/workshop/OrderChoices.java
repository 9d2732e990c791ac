package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.UUID;
import trestle.defects.OpenDefects;
import trestle.ledger.View;
import trestle.programme.DueItems;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.Subject;
import trestle.web.Option;
import trestle.web.Reading;
import trestle.web.Shown;
import trestle.web.Viewer;

/** What may be put on an order of an aircraft: what is due, what is wrong, what was left open. */
@ApplicationScoped
public class OrderChoices {
  @Inject ReleaseRepository closed;
  @Inject DueItems dueItems;
  @Inject OpenDefects defects;
  @Inject LinesLeftOpen leftOpen;

  /** The choices, what bites first on top; the value of each is read by {@link #line}. */
  @Reading
  public List<Option> of(Viewer viewer, UUID aircraftId, LocalDate today) {
    View now = View.asAt(today);
    List<Option> choices = new ArrayList<>();
    discrepancies(choices, aircraftId, now);
    leftOpen.standing(viewer, List.of(aircraftId), now).getOrDefault(aircraftId, List.of()).stream()
        .map(
            one ->
                new Option(
                    value(WorkLine.PUT_OFF, one.line().id(), ""),
                    one.line().title(),
                    "Left open until " + Shown.date(one.leftOpen().lastDay())))
        .forEach(choices::add);
    defects.of(viewer, List.of(aircraftId), now).getOrDefault(aircraftId, List.of()).stream()
        .map(
            one ->
                new Option(
                    value(WorkLine.DEFECT, one.entryId(), ""),
                    "Defect " + one.no() + ": " + Drafting.cut(one.words(), 200),
                    one.stateWords()))
        .forEach(choices::add);
    dueItems.dueItems(viewer, List.of(aircraftId), now).getOrDefault(aircraftId, List.of()).stream()
        .sorted(AircraftStanding.BITES_FIRST)
        .map(OrderChoices::due)
        .forEach(choices::add);
    return choices;
  }

  private void discrepancies(List<Option> choices, UUID aircraftId, View now) {
    Set<String> settled = new HashSet<>();
    List<WorkRelease> found = closed.notAirworthy(List.of(aircraftId), now);
    if (found.isEmpty()) {
      return;
    }
    closed
        .settledDiscrepancies(List.of(aircraftId), now)
        .forEach(line -> settled.add(line.fromRelease + " " + line.fromOrdinal));
    for (WorkRelease release : found) {
      for (int i = 1; i <= release.discrepancies.length; i++) {
        if (!settled.contains(release.id() + " " + i)) {
          choices.add(
              new Option(
                  value(WorkLine.DISCREPANCY, release.id(), String.valueOf(i)),
                  release.discrepancies[i - 1],
                  "Listed as not airworthy on " + Shown.date(release.happenedOn())));
        }
      }
    }
  }

  private static Option due(DueItem item) {
    String component =
        item.subject().kind().equals(Subject.AIRCRAFT) ? "" : item.subject().id() + "";
    String title =
        component.isEmpty() ? item.title() : item.title() + ": " + item.subject().words();
    String state = item.state().name().toLowerCase(Locale.ROOT).replace('_', ' ');
    String when =
        item.reckoning().projectedOn() == null
            ? ""
            : ", projected for " + Shown.date(item.reckoning().projectedOn());
    return new Option(
        value(WorkLine.REQUIREMENT, item.requirementId(), component),
        title,
        item.ruleWords() + ": " + state + when);
  }

  /** "requirement_0199…_" as the page sends it. */
  public static String value(String origin, UUID source, String more) {
    return origin + "_" + source + "_" + more;
  }

  /**
   * The line that a choice means.
   *
   * @throws IllegalArgumentException where it is none
   */
  public static NewLine line(String value) {
    String[] parts = value.split("_", -1);
    if (parts.length != 3) {
      throw new IllegalArgumentException("must be among the choices shown");
    }
    try {
      UUID source = UUID.fromString(parts[1]);
      return switch (parts[0]) {
        case WorkLine.REQUIREMENT ->
            NewLine.due(source, parts[2].isEmpty() ? null : UUID.fromString(parts[2]));
        case WorkLine.DEFECT -> NewLine.defect(source);
        case WorkLine.PUT_OFF -> NewLine.putOff(source);
        case WorkLine.DISCREPANCY -> NewLine.discrepancy(source, Integer.parseInt(parts[2]));
        default -> throw new IllegalArgumentException();
      };
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException("must be among the choices shown", e);
    }
  }
}
