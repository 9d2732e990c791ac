package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.ledger.View;
import trestle.programme.ComplianceRecords;
import trestle.programme.DueItems;
import trestle.reckoning.Counter;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.LimitReckoning;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.standing.LastDone;
import trestle.web.Reading;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * The directive status of one aircraft and its parts: of each number and revision how it stands, by
 * which method it was complied with, when and at which hours, what is due next, and of those that
 * do not apply why not. 14 CFR 91.417(a)(2)(v); AMC to M.A.305.
 */
@ApplicationScoped
public class StatusReport {
  @Inject Status status;
  @Inject DueItems dueItems;
  @Inject ComplianceRecords complianceRecords;
  @Inject AlternativeMethods methods;

  /**
   * One line, all in words.
   *
   * @param method how it was complied with last, with alternative methods; or ""
   * @param done when and at which hours; or ""
   * @param next what is due next; or ""
   * @param requirement the page of the requirement, or null
   */
  public record Row(
      Status.Line line, String method, String done, String next, String requirement) {}

  @Reading
  public List<Row> of(Viewer viewer, AircraftSheet aircraft, View view) {
    return rows(
        viewer,
        status
            .ofAircraft(viewer, List.of(aircraft.id()), view)
            .getOrDefault(aircraft.id(), List.of()),
        dueItems
            .dueItems(viewer, List.of(aircraft.id()), view)
            .getOrDefault(aircraft.id(), List.of()),
        new InWords(aircraft.shownAs()),
        view);
  }

  /** Of one component by itself. */
  @Reading
  public List<Row> ofComponent(Viewer viewer, UUID componentId, View view) {
    return rows(
        viewer,
        status.ofComponent(viewer, componentId, view),
        dueItems.onComponent(viewer, componentId, view),
        new InWords(HoursStyle.TENTHS),
        view);
  }

  private List<Row> rows(
      Viewer viewer, List<Status.Line> lines, List<DueItem> due, InWords words, View view) {
    Set<UUID> directives = new HashSet<>();
    lines.forEach(line -> directives.add(line.directive().id()));
    Map<UUID, List<AlternativeMethods.Method>> others = methods.of(viewer, directives, view);
    Map<UUID, DueItem> items = new HashMap<>();
    due.forEach(item -> items.put(item.requirementId(), item));
    Map<UUID, String> done =
        complianceRecords.methods(
            viewer,
            items.values().stream()
                .filter(item -> item.lastDone() != null)
                .map(item -> item.lastDone().complianceId())
                .toList());
    List<Row> rows = new ArrayList<>();
    for (Status.Line line : lines) {
      AssessmentSheet assessment = line.judged().assessment();
      UUID requirement = assessment == null ? null : assessment.requirementId();
      DueItem item = requirement == null ? null : items.get(requirement);
      LastDone last = item == null ? null : item.lastDone();
      rows.add(
          new Row(
              line,
              method(
                  line.item().aircraftId(),
                  last == null || last.baseline() ? null : done.get(last.complianceId()),
                  others.getOrDefault(line.directive().id(), List.of())),
              done(last, words),
              next(item, words),
              item == null ? null : item.link()));
    }
    return rows;
  }

  /** How it was complied with last, and the other ways approved for this aircraft. */
  private static String method(
      UUID aircraftId, String done, List<AlternativeMethods.Method> alternatives) {
    List<String> words = new ArrayList<>();
    if (done != null && !done.isEmpty()) {
      words.add(done);
    }
    alternatives.stream()
        .filter(one -> one.aircraftId() == null || one.aircraftId().equals(aircraftId))
        .forEach(
            one ->
                words.add(
                    "Alternative: "
                        + one.words()
                        + " ("
                        + one.approvedBy()
                        + ", "
                        + one.reference()
                        + ")"));
    return String.join(". ", words);
  }

  private static String done(LastDone last, InWords words) {
    if (last == null || last.baseline()) {
      return "";
    }
    String on = last.reading().on() == null ? "" : Shown.date(last.reading().on());
    return last.reading()
        .usage()
        .total(Counter.HOURS)
        .map(hours -> on + ", " + words.used(hours))
        .orElse(on);
  }

  private static String next(DueItem item, InWords words) {
    if (item == null) {
      return "";
    }
    LimitReckoning limit = item.controlling();
    if (limit == null) {
      return "done for good";
    }
    String left = words.left(limit);
    return words.due(limit) + (left.isEmpty() ? "" : " (" + left + " left)");
  }
}
