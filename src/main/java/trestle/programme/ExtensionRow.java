package trestle.programme;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.standing.Granted;

/** One extension that stands, as far as reckoning needs it. */
record ExtensionRow(
    UUID id,
    UUID requirementId,
    UUID aircraftId,
    UUID componentId,
    Instant at,
    String limitPath,
    Long newDueAt,
    LocalDate newDueOn,
    String approvedBy,
    String reference,
    Long sequence) {

  UUID subjectId() {
    return componentId == null ? aircraftId : componentId;
  }

  List<Integer> path() {
    return path(limitPath);
  }

  long newDue() {
    return newDueAt == null ? newDueOn.toEpochDay() : newDueAt;
  }

  Granted granted() {
    return new Granted(id, path(), newDue(), approvedBy, reference);
  }

  /** The path of indexes down to a limit, written {@code 0.1}. */
  static List<Integer> path(String text) {
    return Arrays.stream(text.split("\\.")).map(Integer::valueOf).toList();
  }

  static String text(List<Integer> path) {
    return path.stream().map(String::valueOf).collect(Collectors.joining("."));
  }
}
