package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** An open line that is left open, with the authority for it. */
@Entity
@Table(name = "line_deferral")
@Kind("line-deferral")
class LineDeferral extends Filed {
  UUID aircraftId;
  UUID lineEntryId;
  String why;
  String authority;
  String reference;
  LocalDate lastDay;
  String licenceNumber;
  String licenceKind;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
