package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** Something that happened to an aircraft and holds it until it has been inspected for it. */
@Entity
@Table(name = "abnormal_event")
@Kind("abnormal-event")
class AbnormalEvent extends Filed {
  UUID aircraftId;
  UUID entryId;
  long number;
  String kindCode;
  String kindName;
  String inspection;
  String words;
  UUID flightEntryId;
  String[] photos;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
