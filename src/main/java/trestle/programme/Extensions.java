package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Outcome;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Scale;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Extensions: one occurrence of one limit, put off by someone entitled to, with a reference. */
@ApplicationScoped
public class Extensions {
  @Inject ComplianceRepository repository;
  @Inject DueItems dueItems;
  @Inject Subjects subjects;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * Files an extension of what is due next.
   *
   * @return the id of its record
   * @throws Refusal naming the field; on a directive or a limitation when no text is cited
   */
  @Filing
  public UUID grant(Viewer viewer, NewExtension asked) {
    bump(viewer, asked.aircraftId(), asked.componentId());
    GrantedExtension before = repository.ofForm(GrantedExtension.class, asked.formKey());
    if (before != null) {
      return before.id();
    }
    check(viewer, asked);
    Reckoned.Detail detail = detail(viewer, asked);
    if (detail.revision().terms().kind().allowsNothingOfItself() && asked.allowedBy().isBlank()) {
      throw new Refusal(
          "allowed-by",
          "A directive or limitation is not extended unless its own text allows it: name that"
              + " text.");
    }
    LimitReckoning limit = limit(detail.item().reckoning(), asked.limit());
    if (limit == null || !(limit.limit() instanceof Limit.Measured)) {
      throw new Refusal("limit", "Choose the limit that is extended.");
    }
    if (limit.due() != Scale.UNKNOWN && asked.newDue() <= limit.due()) {
      throw new Refusal("new-due", "The new due point must be later than the one it extends.");
    }
    GrantedExtension row = row(viewer, asked, limit, clock.instant());
    file(viewer, row);
    return row.id();
  }

  /** Takes an extension away; it stays to be seen. */
  @Filing
  public void voided(Viewer viewer, UUID extensionId, String reason) {
    GrantedExtension original = repository.one(GrantedExtension.class, extensionId);
    if (original == null) {
      throw new NotHere("There is no such record here.");
    }
    bump(viewer, original.aircraftId, original.componentId);
    if (original.voided || repository.correctionOf(GrantedExtension.class, extensionId) != null) {
      throw new Stale("Someone took this extension away since you opened this form.");
    }
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it no longer stands.");
    }
    GrantedExtension row = new GrantedExtension();
    row.requirementId = original.requirementId;
    row.aircraftId = original.aircraftId;
    row.componentId = original.componentId;
    row.limitPath = original.limitPath;
    row.dueAt = original.dueAt;
    row.dueOn = original.dueOn;
    row.newDueAt = original.newDueAt;
    row.newDueOn = original.newDueOn;
    row.approvedBy = original.approvedBy;
    row.reference = original.reference;
    row.allowedBy = original.allowedBy;
    row.voided = true;
    row.happened(original.happenedAt(), original.happenedOn());
    row.correct(extensionId, reason);
    file(viewer, row);
  }

  /** All extensions of one requirement on one subject, also those taken away, oldest first. */
  @Reading
  public List<ExtensionLine> history(
      Viewer viewer, UUID requirementId, UUID aircraftId, UUID componentId, View view) {
    UUID subject = componentId == null ? aircraftId : componentId;
    List<GrantedExtension> rows = repository.filedExtensions(Set.of(requirementId), subject, view);
    Map<UUID, UUID> correctedBy = new HashMap<>();
    rows.stream()
        .filter(row -> row.corrects() != null)
        .forEach(row -> correctedBy.put(row.corrects(), row.id()));
    return rows.stream().map(row -> line(row, correctedBy.get(row.id()))).toList();
  }

  /** The limit at the end of a path of indexes, or null where there is none. */
  static LimitReckoning limit(Reckoning reckoning, List<Integer> path) {
    Outcome at = reckoning;
    for (int index : path) {
      if (!(at instanceof Reckoning group) || index < 0 || index >= group.entries().size()) {
        return null;
      }
      at = group.entries().get(index);
    }
    return at instanceof LimitReckoning limit ? limit : null;
  }

  private void check(Viewer viewer, NewExtension asked) {
    if (!viewer.isAny(Role.ENGINEER, Role.CONTROLLER)) {
      throw new Refusal("", "Extensions are filed by an engineer or a controller.");
    }
    if (asked.on().isAfter(viewer.dateOf(clock.instant()))) {
      throw new Refusal("on", "Granted on must not be in the future.");
    }
    if (asked.approvedBy().isBlank()) {
      throw new Refusal("approved-by", "Approved by is needed: say who granted it.");
    }
    if (asked.reference().isBlank()) {
      throw new Refusal("reference", "Reference is needed: name the approval.");
    }
  }

  /** What was due next on the day it was granted: that is the occurrence it extends. */
  private Reckoned.Detail detail(Viewer viewer, NewExtension asked) {
    return dueItems
        .detail(
            viewer,
            asked.requirementId(),
            asked.aircraftId(),
            asked.componentId(),
            View.asAt(asked.on()),
            null,
            null)
        .orElseThrow(() -> new NotHere("There is no such requirement on this subject."));
  }

  private static GrantedExtension row(
      Viewer viewer, NewExtension asked, LimitReckoning limit, Instant now) {
    GrantedExtension row = new GrantedExtension();
    row.requirementId = asked.requirementId();
    row.aircraftId = asked.aircraftId();
    row.componentId = asked.componentId();
    row.limitPath = ExtensionRow.text(asked.limit());
    if (limit.isByCalendar()) {
      row.dueOn = limit.dueOn();
      row.newDueOn = LocalDate.ofEpochDay(asked.newDue());
    } else {
      row.dueAt = limit.due() == Scale.UNKNOWN ? null : limit.due();
      row.newDueAt = asked.newDue();
    }
    row.approvedBy = asked.approvedBy().strip();
    row.reference = asked.reference().strip();
    row.allowedBy = asked.allowedBy().strip();
    row.happened(granted(viewer, asked.on(), now), asked.on());
    row.fromForm(asked.formKey());
    return row;
  }

  /** The end of its day, or now: work done on that day came before, and it extends the next. */
  private static Instant granted(Viewer viewer, LocalDate day, Instant now) {
    Instant end = day.plusDays(1).atStartOfDay(viewer.zone()).toInstant().minusSeconds(1);
    return end.isAfter(now) ? now : end;
  }

  private static ExtensionLine line(GrantedExtension row, UUID correctedBy) {
    boolean calendar = row.newDueOn != null;
    Long due =
        calendar ? row.dueOn == null ? null : Long.valueOf(row.dueOn.toEpochDay()) : row.dueAt;
    return new ExtensionLine(
        row.id(),
        row.requirementId,
        row.happenedOn(),
        ExtensionRow.path(row.limitPath),
        calendar,
        due,
        calendar ? row.newDueOn.toEpochDay() : row.newDueAt,
        row.approvedBy,
        row.reference,
        row.allowedBy,
        row.recordedBy(),
        row.recordedAt(),
        row.corrects(),
        correctedBy,
        row.reason(),
        row.voided);
  }

  private void bump(Viewer viewer, UUID aircraftId, UUID componentId) {
    Set<UUID> aircraft = new HashSet<>();
    if (aircraftId != null) {
      aircraft.add(aircraftId);
    }
    if (componentId != null) {
      aircraft.addAll(subjects.aircraftWith(viewer, componentId));
    }
    revisions.bump(viewer, aircraft);
  }

  private void file(Viewer viewer, GrantedExtension row) {
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }
}
