package trestle.records.pack;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.UUID;
import trestle.defects.DefectLine;
import trestle.defects.OpenDefects;
import trestle.directives.StatusReport;
import trestle.fleet.ComponentHistory;
import trestle.fleet.Configurations;
import trestle.fleet.EmptyWeight;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.ledger.View;
import trestle.overview.StatusSheet;
import trestle.overview.StatusSheets;
import trestle.programme.DueItems;
import trestle.reckoning.Amount;
import trestle.reckoning.Counter;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Scale;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * The status lists that the law asks for when an aircraft or a component changes hands: 14 CFR
 * 91.417(a)(2) and (b)(2), 91.419; M.A.305 and M.A.307.
 */
@ApplicationScoped
class Summaries {
  private static final String NOT_KNOWN = "not known";

  /** Each rule with the heading that answers it. */
  private static final List<List<String>> OF_AIRCRAFT =
      List.of(
          List.of(
              "14 CFR 91.417(a)(2)(i)",
              "Total time in service of the airframe, each engine and each propeller",
              "Total times; Time since overhaul (since new)"),
          List.of(
              "14 CFR 91.417(a)(2)(ii); M.A.305",
              "Life-limited parts: limit, accumulated, remaining",
              "Life-limited parts"),
          List.of(
              "14 CFR 91.417(a)(2)(iii)",
              "Time since last overhaul of items overhauled on a time basis",
              "Time since overhaul"),
          List.of(
              "14 CFR 91.417(a)(2)(iv)",
              "Inspection status, with the time since the last inspection",
              "Inspection status"),
          List.of(
              "14 CFR 91.417(a)(2)(v); M.A.305",
              "Directives: method, number, revision; when the next action is required",
              "Directive status"),
          List.of(
              "14 CFR 91.417(a)(2)(vi)",
              "Major alterations and repairs, with their forms",
              "Major modifications and repairs"),
          List.of("M.A.305", "Mass and balance", "Empty weight"),
          List.of("M.A.306; M.A.403", "Deferred and open defects", "Open defects and deferrals"),
          List.of(
              "14 CFR 91.417(b)(2), 91.419; M.A.307",
              "These records go with the aircraft, in plain language or in coded form",
              "This summary; csv/ and ledger/ in the same pack"));

  private static final List<List<String>> OF_COMPONENT =
      List.of(
          List.of(
              "14 CFR 91.417(a)(2)(i), (iii)",
              "Total time in service, and time since last overhaul",
              "Total times"),
          List.of(
              "14 CFR 91.417(a)(2)(ii); M.A.305",
              "Life limit, accumulated, remaining",
              "Limits and inspections"),
          List.of(
              "14 CFR 91.417(a)(2)(v); M.A.305",
              "Directives: method, number, revision; when the next action is required",
              "Directive status"),
          List.of("M.A.305", "In-service history", "Where it was fitted; What was done to it"),
          List.of(
              "14 CFR 91.417(b)(2), 91.419; M.A.307",
              "These records go with the component, in plain language or in coded form",
              "This summary; csv/ and ledger/ in the same pack"));

  @Inject StatusSheets statuses;
  @Inject OpenDefects defects;
  @Inject Configurations configurations;
  @Inject ComponentLines components;
  @Inject DueItems dueItems;
  @Inject StatusReport directives;

  /** As it was known at a size of the ledger; {@code view} names the day and the size. */
  PackSummary of(Viewer viewer, PackSubject subject, View view) {
    // Not "now": what is kept in memory is kept by what is filed for good.
    AsAt asAt = new AsAt(Form.blank(), view.upTo().plusDays(1), view, false);
    return subject.isAircraft()
        ? aircraft(viewer, subject.id(), asAt)
        : component(viewer, subject.id(), asAt);
  }

  private PackSummary aircraft(Viewer viewer, UUID id, AsAt asAt) {
    StatusSheet sheet = statuses.of(viewer, id, asAt);
    View view = asAt.view();
    List<StatusSheet.Part> parts = new ArrayList<>(sheet.parts());
    parts.add(openDefects(defects.of(viewer, List.of(id), view).getOrDefault(id, List.of())));
    parts.add(weight(configurations.of(viewer, id, view).emptyWeight()));
    String title =
        sheet.sheet().registration()
            + ", "
            + sheet.sheet().typeName()
            + ", serial "
            + sheet.sheet().particulars().serial();
    return new PackSummary(
        title, viewer.operatorName(), asAt.words(), OF_AIRCRAFT, parts, view.knownTo(), "", "");
  }

  private static StatusSheet.Part openDefects(List<DefectLine> open) {
    return new StatusSheet.Part(
        "Open defects and deferrals",
        "",
        List.of("No.", "Defect", "Found", "State", "Limitation and placard", "Until"),
        open.stream()
            .map(
                one ->
                    List.of(
                        one.no(),
                        one.words(),
                        Shown.date(one.foundOn()),
                        one.state() + ". " + one.stateWords(),
                        joined(one.limitation(), one.placard()),
                        one.lastWords()))
            .toList(),
        "No defect is open.");
  }

  private static StatusSheet.Part weight(EmptyWeight weight) {
    List<List<String>> rows = new ArrayList<>();
    for (EmptyWeight.Line line : weight.lines()) {
      rows.add(
          List.of(
              Shown.date(line.entry().on()),
              line.entry().what(),
              line.weight().toPlainString() + " " + line.entry().weightUnit(),
              line.arm() == null
                  ? NOT_KNOWN
                  : line.arm().toPlainString() + " " + line.entry().armUnit(),
              line.entry().reference()));
    }
    return new StatusSheet.Part(
        "Empty weight",
        "After each weighing or change; the last line is how it stands.",
        List.of("Day", "What", "Empty weight", "Centre of gravity", "Reference"),
        rows,
        "No weighing is recorded.");
  }

  private PackSummary component(Viewer viewer, UUID id, AsAt asAt) {
    View view = asAt.view();
    ComponentLine line = components.of(viewer, id, view);
    InWords words = new InWords(HoursStyle.TENTHS);
    List<StatusSheet.Part> parts = new ArrayList<>();
    parts.add(totals(line, words));
    parts.add(limits(dueItems.onComponent(viewer, id, view), words));
    parts.add(directives(directives.ofComponent(viewer, id, view)));
    parts.add(fitted(line.history()));
    parts.add(done(line.history()));
    return new PackSummary(
        line.history().sheet().words(),
        viewer.operatorName(),
        asAt.words(),
        OF_COMPONENT,
        parts,
        view.knownTo(),
        "",
        "");
  }

  private static StatusSheet.Part totals(ComponentLine line, InWords words) {
    List<List<String>> rows = new ArrayList<>();
    for (Counter counter : new TreeSet<>(line.counters())) {
      rows.add(
          List.of(
              counter.equals(Counter.HOURS) ? "time in service" : counter.name().replace('-', ' '),
              amount(line.sinceNew(counter), counter, words),
              amount(line.sinceOverhaul(counter), counter, words),
              amount(line.sinceFitted(counter), counter, words)));
    }
    return new StatusSheet.Part(
        "Total times",
        "Of one that was never overhauled, time since overhaul is time since new.",
        List.of("Counter", "Since new", "Since overhaul", "Since fitted"),
        rows,
        NOT_KNOWN);
  }

  private static StatusSheet.Part limits(List<DueItem> items, InWords words) {
    return new StatusSheet.Part(
        "Limits and inspections",
        "Life limits, overhauls, inspections and what directives ask of it.",
        List.of("Item", "Kind", "Rule", "Accumulated", "Last done", "Next due", "Left"),
        items.stream()
            .map(
                item ->
                    List.of(
                        item.title(),
                        item.kind(),
                        item.ruleWords(),
                        item.usage().total(Counter.HOURS).map(words::used).orElse(NOT_KNOWN),
                        item.lastDone() == null || item.lastDone().reading().on() == null
                            ? ""
                            : Shown.date(item.lastDone().reading().on()),
                        item.controlling() == null
                            ? "done for good"
                            : words.due(item.controlling()),
                        item.controlling() == null ? "" : words.left(item.controlling())))
            .toList(),
        "No requirement of it is recorded.");
  }

  private static StatusSheet.Part directives(List<StatusReport.Row> rows) {
    return new StatusSheet.Part(
        "Directive status",
        "Directives and bulletins entered here; of those that do not apply, the reason.",
        List.of("Number", "Revision", "State", "Method", "Done", "Next due"),
        rows.stream()
            .map(
                row ->
                    List.of(
                        row.line().name(),
                        row.line().directive().revision(),
                        joined(row.line().judged().state().shown(), row.line().judged().why()),
                        row.method(),
                        row.done(),
                        row.next()))
            .toList(),
        "No directive entered here is about its part number.");
  }

  private static StatusSheet.Part fitted(ComponentHistory history) {
    return new StatusSheet.Part(
        "Where it was fitted",
        "",
        List.of("From", "To", "Position"),
        history.fittings().stream()
            .map(
                one ->
                    List.of(
                        Shown.date(one.fromOn()),
                        one.to() == null ? "still there" : one.to().toString().substring(0, 10),
                        one.positionLabel()))
            .toList(),
        "It was fitted nowhere since these records began.");
  }

  private static StatusSheet.Part done(ComponentHistory history) {
    List<List<String>> rows = new ArrayList<>();
    history
        .overhauls()
        .forEach(one -> rows.add(List.of(Shown.date(one.on()), "overhauled", one.reference())));
    history
        .events()
        .forEach(
            one ->
                rows.add(
                    List.of(
                        Shown.date(one.on()),
                        one.kind().name().toLowerCase(java.util.Locale.ROOT).replace('_', ' '),
                        joined(joined(one.whom(), one.why()), one.reference()))));
    return new StatusSheet.Part(
        "What was done to it",
        "",
        List.of("Day", "What", "By whom, why, reference"),
        rows,
        "Nothing is recorded.");
  }

  private static String amount(long units, Counter counter, InWords words) {
    return units == Scale.UNKNOWN ? NOT_KNOWN : words.used(new Amount(units, counter.unit()));
  }

  private static String joined(String one, String other) {
    String second = other == null ? "" : other;
    return one.isEmpty() || second.isEmpty() ? one + second : one + "; " + second;
  }
}
