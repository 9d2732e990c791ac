package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.ledger.NamesFiles;

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

  @NamesFiles(table = "attachment")
  String[] photos;

  Boolean voided;

  boolean isVoid() {
    return voided != null;
  }

  void says(EventKind kind, String what) {
    kindCode = kind.code();
    kindName = kind.name();
    inspection = kind.inspection();
    words = what;
  }

  /** A row of the same event, which names this one as what it puts right. */
  AbnormalEvent next(String why) {
    AbnormalEvent row = new AbnormalEvent();
    row.aircraftId = aircraftId;
    row.entryId = entryId;
    row.number = number;
    row.kindCode = kindCode;
    row.kindName = kindName;
    row.inspection = inspection;
    row.words = words;
    row.flightEntryId = flightEntryId;
    row.photos = photos;
    row.happened(happenedAt(), happenedOn());
    row.correct(id(), why);
    return row;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
