package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;

/** The inspection an abnormal event asks for, certified by an engineer. */
@Entity
@Table(name = "event_inspection")
@Kind("event-inspection")
class EventInspection extends CertifiedRecord {
  UUID eventEntryId;
  String found;

  @Override
  UUID about() {
    return eventEntryId;
  }

  @Override
  String words() {
    return found;
  }
}
