package trestle.workshop;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/** A second person's inspection of signed work. */
public record SecondLook(
    UUID id,
    UUID workId,
    UUID inspectedBy,
    String inspectorName,
    String words,
    String licenceNumber,
    String licenceKind,
    Instant at,
    LocalDate on) {

  static SecondLook of(LineInspection row) {
    return new SecondLook(
        row.id(),
        row.lineWorkId,
        row.inspectedBy,
        row.inspectorName,
        row.words,
        row.licenceNumber,
        row.licenceKind,
        row.happenedAt(),
        row.happenedOn());
  }

  public String by() {
    return inspectorName + ", " + licenceKind + " " + licenceNumber;
  }
}
