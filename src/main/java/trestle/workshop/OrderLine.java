package trestle.workshop;

import java.util.List;
import java.util.UUID;

/**
 * A line with all that was recorded on it.
 *
 * @param work what was done and signed, as it stands; null while nobody has
 * @param earlier what was signed before and corrected or taken away since, oldest first
 * @param look the second person's inspection of that work, or null
 * @param leftOpen that it is left open on somebody's authority, or null
 * @param defectDeferred of a defect's line: the defect itself is deferred
 */
public record OrderLine(
    LineSheet line,
    WorkSheet work,
    List<WorkSheet> earlier,
    SecondLook look,
    LeftOpen leftOpen,
    List<UsedPart> parts,
    List<ReadingSheet> readings,
    List<PhotoSheet> photos,
    boolean defectDeferred) {

  /** Whether somebody signed work on it, as it stands or as it was signed before. */
  public boolean workedOnBy(UUID person) {
    return work != null && work.workedBy().equals(person)
        || earlier.stream().anyMatch(one -> !one.voided() && one.workedBy().equals(person));
  }

  /** One signed record of the line, standing or not; null where it has none of that id. */
  public WorkSheet record(UUID workId) {
    if (work != null && work.id().equals(workId)) {
      return work;
    }
    return earlier.stream().filter(one -> one.id().equals(workId)).findFirst().orElse(null);
  }

  public boolean isSigned() {
    return work != null;
  }

  /** Signed, and a second person has still to inspect it. */
  public boolean awaitsInspection() {
    return work != null
        && line.independent()
        && work.outcome() != Outcome.NOT_APPLICABLE
        && look == null;
  }

  /** Signed with all it asks for. */
  public boolean isDone() {
    return work != null && !awaitsInspection();
  }

  /** Something was done: signed with all it asks for, and not as what does not apply. */
  public boolean isWorked() {
    return isDone() && work.outcome() != Outcome.NOT_APPLICABLE;
  }

  /** Nothing is left to do about it in this order. */
  public boolean isClosed() {
    return isDone() || work == null && (leftOpen != null || defectDeferred);
  }

  /** The same with what was read of one component, or of none. */
  public OrderLine withReadingsOf(UUID component) {
    List<ReadingSheet> own =
        readings.stream()
            .filter(one -> one.componentId() == null || one.componentId().equals(component))
            .toList();
    return new OrderLine(line, work, earlier, look, leftOpen, parts, own, photos, defectDeferred);
  }

  /** "Done", "Waiting for a second person", "Open" … */
  public String stateWords() {
    if (awaitsInspection()) {
      return "Waiting for a second person’s inspection";
    }
    if (work != null) {
      return work.outcome().label();
    }
    if (leftOpen != null) {
      return "Left open until " + trestle.web.Shown.date(leftOpen.lastDay());
    }
    return defectDeferred ? "The defect is deferred" : "Open";
  }
}
