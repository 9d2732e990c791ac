package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** An open line that is left open, with the authority for it. */
@Entity
@Table(name = "line_deferral")
@Kind("line-deferral")
class LineDeferral extends Revocable {
  UUID aircraftId;
  UUID lineEntryId;
  String why;
  String authority;
  String reference;
  LocalDate lastDay;
  String licenceNumber;
  String licenceKind;

  /** The row that took away the one before, where this is filed anew; null at first. */
  UUID afterVoided;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
