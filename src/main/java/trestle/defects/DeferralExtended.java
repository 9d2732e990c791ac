package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A deferral put off once more, with the fields of an extension record. */
@Entity
@Table(name = "deferral_extension")
@Kind("deferral-extension")
class DeferralExtended extends Revocable {
  UUID aircraftId;
  UUID defectEntryId;
  UUID deferralId;
  LocalDate lastDay;
  LocalDate newLastDay;
  String unserviceableAt;
  String why;
  String partNumber = "";
  LocalDate orderedOn;
  LocalDate deliveryOn;
  String approvedBy;
  String reference;
  LocalDate authorityToldOn;
  String profileName;

  /** The row that took away the one before, where this is filed anew; null at first. */
  UUID afterVoided;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
