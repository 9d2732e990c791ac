package trestle.programme;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.reckoning.Counter;
import trestle.reckoning.Usage;

/**
 * A compliance as pages show it, standing or not.
 *
 * @param signed the readings as the signer wrote them
 * @param reckoned the subject's totals at that place in the sequence of flights
 * @param differing the counters on which the two disagree by more than a rounding
 * @param papers the files that were filed with it
 * @param correctedBy the row that takes its place, or null while it stands
 * @param corrects the row whose place it took, or null
 * @param voids whether it only takes another away
 */
public record ComplianceLine(
    UUID id,
    UUID requirementId,
    UUID aircraftId,
    UUID componentId,
    boolean baseline,
    Instant at,
    LocalDate on,
    LocalDate countsFrom,
    Usage signed,
    Usage reckoned,
    List<Counter> differing,
    String workReference,
    String certifiedBy,
    String licenceNumber,
    String transcribedFrom,
    boolean complete,
    String remarks,
    List<Paper> papers,
    UUID recordedBy,
    Instant recordedAt,
    UUID corrects,
    UUID correctedBy,
    String reason,
    boolean voids) {

  static ComplianceLine of(Compliance row, UUID correctedBy, SubjectLine line, List<Paper> papers) {
    Usage signed = Readings.parse(row.readings);
    Usage reckoned = line.at(row.happenedAt());
    return new ComplianceLine(
        row.id(),
        row.requirementId,
        row.aircraftId,
        row.componentId,
        row.kind.equals(Compliance.BASELINE),
        row.happenedAt(),
        row.happenedOn(),
        row.countsFrom,
        signed,
        reckoned,
        row.kind.equals(Compliance.BASELINE) ? List.of() : Readings.differing(signed, reckoned),
        row.workReference,
        row.certifiedBy,
        row.licenceNumber,
        row.transcribedFrom,
        row.complete,
        row.remarks,
        papers,
        row.recordedBy(),
        row.recordedAt(),
        row.corrects(),
        correctedBy,
        row.reason(),
        row.voided);
  }

  public boolean stands() {
    return correctedBy == null && !voids;
  }

  public boolean isTranscribed() {
    return !transcribedFrom.isEmpty();
  }
}
