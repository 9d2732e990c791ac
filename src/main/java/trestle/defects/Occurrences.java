package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.ledger.Rows;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Defects that are safety occurrences: whom to report them to, by when, and when it was sent. */
@ApplicationScoped
public class Occurrences {
  @Inject DefectRepository repository;
  @Inject DefectBook book;
  @Inject Fleet fleet;
  @Inject Ledger ledger;
  @Inject Rows rows;
  @Inject InstantSource clock;

  /**
   * What a person says of a defect as a safety occurrence.
   *
   * @param reportable false: looked at, and it is none
   * @param kind such as "Warning not seen"; "" where it is none
   * @param reportTo whom; "" where it is none
   * @param dueAt by when, or null where no time is set
   * @param remark needed where it is none
   */
  public record NewOccurrence(
      boolean reportable, String kind, String reportTo, Instant dueAt, String remark) {}

  /**
   * One thing to follow up.
   *
   * @param id of the occurrence; null while nobody has looked at the missed warning
   * @param sentOn when the report was sent, or null
   * @param late its time is over and nothing was sent
   */
  public record Line(
      UUID id,
      DefectSheet defect,
      String registration,
      boolean reportable,
      String kind,
      String reportTo,
      Instant dueAt,
      String remark,
      LocalDate sentOn,
      String reference,
      boolean late) {

    public boolean isOpen() {
      return reportable && sentOn == null;
    }
  }

  /**
   * The list to follow up.
   *
   * @param unassessed warnings that were missed and nobody has looked at yet
   * @param open to be sent, the most pressing first
   * @param settled sent, or found not to be reported
   */
  public record FollowUp(List<Line> unassessed, List<Line> open, List<Line> settled) {}

  @Reading
  public FollowUp followUp(Viewer viewer) {
    List<Line> lines = lines(viewer);
    Set<UUID> assessed = new HashSet<>();
    lines.forEach(line -> assessed.add(line.defect().entryId()));
    List<Line> unassessed = new ArrayList<>();
    List<Defect> missed = repository.missedWarnings(View.EVERYTHING);
    Map<UUID, String> registrations =
        registrations(viewer, missed.stream().map(d -> d.aircraftId).toList());
    for (Defect row : missed) {
      if (!assessed.contains(row.entryId)) {
        unassessed.add(
            new Line(
                null,
                DefectSheet.of(row),
                registrations.get(row.aircraftId),
                true,
                "",
                "",
                null,
                "",
                null,
                "",
                false));
      }
    }
    return new FollowUp(
        unassessed,
        lines.stream().filter(Line::isOpen).toList(),
        lines.stream().filter(line -> !line.isOpen()).toList());
  }

  @Reading
  public List<Line> of(Viewer viewer, UUID defectEntryId) {
    return lines(viewer).stream()
        .filter(line -> line.defect().entryId().equals(defectEntryId))
        .toList();
  }

  @Reading
  public Line one(Viewer viewer, UUID occurrenceId) {
    return lines(viewer).stream()
        .filter(line -> line.id().equals(occurrenceId))
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such occurrence here."));
  }

  /** Flags a defect, or says that it is no occurrence to be reported. */
  @Filing
  public UUID flag(Viewer viewer, UUID defectEntryId, NewOccurrence asked, UUID formKey) {
    var before = repository.ofForm(SafetyOccurrence.class, formKey);
    if (before.isPresent()) {
      return before.get().id();
    }
    DefectSheet defect = book.entry(viewer, defectEntryId).current();
    if (asked.reportable() && (asked.kind().isBlank() || asked.reportTo().isBlank())) {
      throw new Refusal("report-to", "Say of what kind it is, and whom it is reported to.");
    }
    if (!asked.reportable() && asked.remark().isBlank()) {
      throw new Refusal("remark", "Remark is needed: say why it need not be reported.");
    }
    SafetyOccurrence row = new SafetyOccurrence();
    row.aircraftId = defect.aircraftId();
    row.defectEntryId = defect.entryId();
    row.reportable = asked.reportable();
    row.kind = asked.reportable() ? asked.kind() : "";
    row.reportTo = asked.reportable() ? asked.reportTo() : "";
    row.dueAt = asked.reportable() ? asked.dueAt() : null;
    row.remark = asked.remark();
    file(viewer, row, formKey, clock.instant());
    return row.id();
  }

  /**
   * Says that the report was sent.
   *
   * @throws Stale when somebody has said so already
   */
  @Filing
  public void sent(
      Viewer viewer, UUID occurrenceId, Instant sentAt, String reference, UUID formKey) {
    if (repository.ofForm(OccurrenceReport.class, formKey).isPresent()) {
      return;
    }
    Line line = one(viewer, occurrenceId);
    if (!line.isOpen()) {
      throw new Stale("Somebody has recorded already that this was sent, or that it need not be.");
    }
    if (sentAt.isAfter(clock.instant())) {
      throw new Refusal("on", "The day it was sent must not be in the future.");
    }
    OccurrenceReport row = new OccurrenceReport();
    row.afterVoided = rows.lastRevoking(OccurrenceReport.class, "occurrenceId", occurrenceId);
    row.aircraftId = line.defect().aircraftId();
    row.occurrenceId = occurrenceId;
    row.reference = reference;
    file(viewer, row, formKey, sentAt);
  }

  private void file(Viewer viewer, Filed row, UUID formKey, Instant at) {
    row.happened(at, viewer.dateOf(at));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }

  private List<Line> lines(Viewer viewer) {
    List<SafetyOccurrence> rows = repository.occurrences(View.EVERYTHING);
    Map<UUID, OccurrenceReport> sent = new HashMap<>();
    repository.occurrenceReports(View.EVERYTHING).forEach(row -> sent.put(row.occurrenceId, row));
    Set<UUID> ids = new LinkedHashSet<>();
    rows.forEach(row -> ids.add(row.defectEntryId));
    Map<UUID, DefectBook.Entry> defects = book.entries(viewer, ids);
    Map<UUID, String> registrations =
        registrations(viewer, rows.stream().map(row -> row.aircraftId).toList());
    return rows.stream()
        .map(
            row ->
                line(
                    row,
                    defects.get(row.defectEntryId).current(),
                    registrations.get(row.aircraftId),
                    sent.get(row.id())))
        .toList();
  }

  private Line line(
      SafetyOccurrence row, DefectSheet defect, String registration, OccurrenceReport sent) {
    return new Line(
        row.id(),
        defect,
        registration,
        row.reportable,
        row.kind,
        row.reportTo,
        row.dueAt,
        row.remark,
        sent == null ? null : sent.happenedOn(),
        sent == null ? "" : sent.reference,
        row.reportable && sent == null && row.dueAt != null && row.dueAt.isBefore(clock.instant()));
  }

  private Map<UUID, String> registrations(Viewer viewer, List<UUID> aircraftIds) {
    Map<UUID, String> registrations = new HashMap<>();
    fleet
        .sheets(viewer, new LinkedHashSet<>(aircraftIds), View.EVERYTHING)
        .forEach((id, sheet) -> registrations.put(id, sheet.registration()));
    return registrations;
  }
}
