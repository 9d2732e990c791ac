package trestle.directives;

import jakarta.persistence.Entity;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** Another way of complying with a directive, as approved by whoever may (14 CFR 39.19). */
@Entity
@Kind("alternative-method")
class AlternativeMethod extends Revocable {
  UUID directiveId;
  UUID aircraftId;
  String words;
  String approvedBy;
  String reference;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
