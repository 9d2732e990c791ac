package trestle.workshop;

import java.util.UUID;

/**
 * What a line asks for.
 *
 * @param id the same through its corrections
 * @param rowId the row that says so now: whoever signs names it, so that nobody signs for another
 *     wording than they read
 * @param inspection whether it is a required inspection, whose compliance counts from its signature
 * @param parentLine of a task: the line of its requirement
 * @param fromLine of a finding or a line put off: where it comes from
 * @param rating what the signer's licence must be rated for, or ""
 * @param independent whether a second person inspects the work
 */
public record LineSheet(
    UUID id,
    UUID rowId,
    UUID orderId,
    UUID aircraftId,
    int ordinal,
    String origin,
    UUID requirementId,
    UUID componentId,
    boolean inspection,
    UUID defectId,
    UUID parentLine,
    UUID fromLine,
    UUID fromRelease,
    Integer fromOrdinal,
    String title,
    Area area,
    String dataReference,
    String rating,
    boolean independent) {

  static LineSheet of(WorkLine row) {
    return new LineSheet(
        row.entryId,
        row.id(),
        row.orderEntryId,
        row.aircraftId,
        row.ordinal,
        row.origin,
        row.requirementId,
        row.componentId,
        row.inspection,
        row.defectEntryId,
        row.parentLine,
        row.fromLine,
        row.fromRelease,
        row.fromOrdinal,
        row.title,
        Area.parse(row.area),
        row.dataReference,
        row.rating,
        row.independent);
  }

  public boolean isTask() {
    return parentLine != null;
  }

  public String link() {
    return "/work-lines/" + id;
  }

  /** Where it comes from, in words; "" for its own words alone. */
  public String originWords() {
    return switch (origin) {
      case WorkLine.REQUIREMENT -> inspection ? "Required inspection" : "Required work";
      case WorkLine.TASK -> "Task of the inspection";
      case WorkLine.DEFECT -> "Defect";
      case WorkLine.FINDING -> "Finding";
      case WorkLine.PUT_OFF -> "Put off before";
      case WorkLine.DISCREPANCY -> "Discrepancy";
      default -> "";
    };
  }
}
