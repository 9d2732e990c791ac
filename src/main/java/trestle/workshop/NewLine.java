package trestle.workshop;

import java.util.UUID;

/**
 * A line to put on an order.
 *
 * @param origin a word of {@link WorkLine}
 * @param sourceId the requirement, the defect, the line put off, or the release that lists the
 *     discrepancy; null for a free line
 * @param componentId of a requirement about a component
 * @param ordinal of a discrepancy: its place in the list, from 1
 * @param title only of a free line: the others have theirs from where they come
 * @param independent whether a second person inspects it, besides where that is asked anyway
 */
public record NewLine(
    String origin,
    UUID sourceId,
    UUID componentId,
    int ordinal,
    String title,
    Area area,
    String dataReference,
    String rating,
    boolean independent) {

  public static NewLine free(String title, Area area, String data, boolean independent) {
    return new NewLine(WorkLine.FREE, null, null, 0, title, area, data, "", independent);
  }

  /** What is due; with the tasks of its list, where it has one. */
  public static NewLine due(UUID requirementId, UUID componentId) {
    return from(WorkLine.REQUIREMENT, requirementId, componentId, 0);
  }

  public static NewLine defect(UUID defectEntryId) {
    return from(WorkLine.DEFECT, defectEntryId, null, 0);
  }

  /** A line that was left open by an order before. */
  public static NewLine putOff(UUID lineId) {
    return from(WorkLine.PUT_OFF, lineId, null, 0);
  }

  public static NewLine discrepancy(UUID releaseId, int ordinal) {
    return from(WorkLine.DISCREPANCY, releaseId, null, ordinal);
  }

  private static NewLine from(String origin, UUID source, UUID component, int ordinal) {
    return new NewLine(origin, source, component, ordinal, "", null, "", "", false);
  }
}
