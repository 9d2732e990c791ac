package trestle.fleet;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

@Entity
@Table(name = "fitment")
@Kind("fitment")
class Fitment extends Filed {
  UUID componentId;
  UUID aircraftId;
  String positionCode;

  @Column(name = "void")
  boolean isVoid;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
