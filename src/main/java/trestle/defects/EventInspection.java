package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** The inspection an abnormal event asks for, certified by an engineer. */
@Entity
@Table(name = "event_inspection")
@Kind("event-inspection")
class EventInspection extends Filed {
  UUID aircraftId;
  UUID eventEntryId;
  String found;
  String dataReference;
  String licenceNumber;
  String licenceKind;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
