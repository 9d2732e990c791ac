package trestle.defects;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.UUID;

/**
 * An event with all that was filed of it.
 *
 * @param rows as filed, the first report first; the last is what counts
 * @param inspections what was certified, as filed; what was taken away again too
 */
public record EventEntry(List<EventSheet> rows, List<InspectionSheet> inspections) {
  public EventSheet current() {
    return rows.get(rows.size() - 1);
  }

  /** The inspection that counts, or null. */
  public InspectionSheet inspection() {
    InspectionSheet last = inspections.isEmpty() ? null : inspections.get(inspections.size() - 1);
    return last == null || last.voided() ? null : last;
  }

  /** One row of the report. */
  EventSheet row(UUID rowId) {
    return rows.stream().filter(row -> row.id().equals(rowId)).findFirst().orElseThrow();
  }

  /** One row of what was certified. */
  InspectionSheet inspection(UUID rowId) {
    return inspections.stream().filter(row -> row.id().equals(rowId)).findFirst().orElseThrow();
  }

  public List<InspectionSheet> inspectionsLatestFirst() {
    List<InspectionSheet> reversed = new ArrayList<>(inspections);
    Collections.reverse(reversed);
    return reversed;
  }

  /** The rows that no longer count, the latest first. */
  public List<EventSheet> replaced() {
    List<EventSheet> replaced = new ArrayList<>(rows.subList(0, rows.size() - 1));
    Collections.reverse(replaced);
    return replaced;
  }

  /** Whether it holds the aircraft. */
  public boolean isOpen() {
    return inspection() == null && !current().voided();
  }
}
