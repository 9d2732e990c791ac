package trestle.signing;

import java.time.Instant;
import java.util.UUID;

/**
 * A signature as pages show it.
 *
 * @param signsKind the ledger's word for the record that was signed
 * @param ordinal 1 for the first signature under a record, 2 for the next
 * @param licenceNumber under which licence, or "" where none was needed
 * @param signed the canonical JSON of what was signed
 * @param sha256 its hash, in hexadecimal
 */
public record SignatureLine(
    UUID id,
    UUID aircraftId,
    String signsKind,
    UUID signsRecord,
    int ordinal,
    UUID personId,
    String personName,
    String role,
    String licenceNumber,
    String licenceKind,
    String statement,
    String signed,
    String sha256,
    Instant at) {

  /** "M. Oduya, pilot, commercial pilot licence P-114". */
  public String by() {
    String name = personName + ", " + role;
    return licenceNumber.isEmpty() ? name : name + ", " + licenceKind + " " + licenceNumber;
  }

  public String link() {
    return "/signatures/" + id;
  }
}
