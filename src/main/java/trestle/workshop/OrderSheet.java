package trestle.workshop;

import java.time.LocalDate;
import java.util.Locale;
import java.util.UUID;

/**
 * What a work order says of itself.
 *
 * @param id the same through its corrections
 * @param rowId the row that says so now
 */
public record OrderSheet(
    UUID id,
    UUID rowId,
    UUID aircraftId,
    int year,
    int number,
    String title,
    String customer,
    String place,
    LocalDate plannedFrom,
    LocalDate plannedTo,
    boolean needsApproval,
    LocalDate openedOn) {

  static OrderSheet of(WorkOrder row) {
    return new OrderSheet(
        row.entryId,
        row.id(),
        row.aircraftId,
        row.year,
        row.number,
        row.title,
        row.customer,
        row.place,
        row.plannedFrom,
        row.plannedTo,
        row.needsApproval,
        row.happenedOn());
  }

  /** "WO 2026-014". */
  public String no() {
    return String.format(Locale.ROOT, "WO %d-%03d", year, number);
  }

  public String link() {
    return "/work-orders/" + id;
  }
}
