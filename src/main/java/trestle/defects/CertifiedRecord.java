package trestle.defects;

import jakarta.persistence.MappedSuperclass;
import java.util.UUID;
import trestle.ledger.Filed;

/**
 * One filed row of work that was certified, or of what takes it away again.
 *
 * <p>Columns that came later than the table are null where they say nothing, so that the lines
 * which the ledger has stay as they are.
 */
@MappedSuperclass
abstract class CertifiedRecord extends Filed {
  UUID aircraftId;
  String dataReference;
  String licenceNumber;
  String licenceKind;
  Boolean voided;

  /** The row that took an earlier one away, after which this one is filed anew; or null. */
  UUID afterVoided;

  /** The entry of what it is about. */
  abstract UUID about();

  /** What was done, or what was found. */
  abstract String words();

  boolean isVoid() {
    return voided != null;
  }

  /** Makes this row take another away: it says the same, and that it should not stand. */
  void takesAway(CertifiedRecord original, String why) {
    aircraftId = original.aircraftId;
    dataReference = original.dataReference;
    licenceNumber = original.licenceNumber;
    licenceKind = original.licenceKind;
    voided = true;
    happened(original.happenedAt(), original.happenedOn());
    correct(original.id(), why);
  }

  /** Whether another row of the same form says the same. */
  boolean saysAs(CertifiedRecord other) {
    return about().equals(other.about())
        && words().equals(other.words())
        && dataReference.equals(other.dataReference)
        && licenceNumber.equals(other.licenceNumber)
        && isVoid() == other.isVoid()
        && happenedOn().equals(other.happenedOn());
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
