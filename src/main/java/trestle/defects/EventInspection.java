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
  Boolean voided;
  UUID afterVoided;

  boolean isVoid() {
    return voided != null;
  }

  /** A row that takes this one away: it says the same, and that it should not have been filed. */
  EventInspection takenAway() {
    EventInspection row = new EventInspection();
    row.aircraftId = aircraftId;
    row.eventEntryId = eventEntryId;
    row.found = found;
    row.dataReference = dataReference;
    row.licenceNumber = licenceNumber;
    row.licenceKind = licenceKind;
    row.voided = true;
    row.happened(happenedAt(), happenedOn());
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
