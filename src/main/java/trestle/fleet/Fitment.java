package trestle.fleet;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** Put into a position of an aircraft, or into a place of another component: one or the other. */
@Entity
@Table(name = "fitment")
@Kind("fitment")
class Fitment extends Filed {
  UUID componentId;
  UUID aircraftId;
  String positionCode;
  UUID assemblyId;
  String place;

  /** The certificate of release to service, or null where none was named. */
  String released;

  @Column(name = "void")
  boolean isVoid;

  /** The same component in the same place, by the same release. */
  static Fitment like(Fitment other) {
    Fitment row = new Fitment();
    row.componentId = other.componentId;
    row.aircraftId = other.aircraftId;
    row.positionCode = other.positionCode;
    row.assemblyId = other.assemblyId;
    row.place = other.place;
    row.released = other.released;
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
