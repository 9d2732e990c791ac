package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.NamesFiles;
import trestle.ledger.Revocable;

/** A picture of what a line is about, by the hash under which it is kept. */
@Entity
@Table(name = "line_photo")
@Kind("line-photo")
class LinePhoto extends Revocable {
  UUID aircraftId;
  UUID lineEntryId;

  @NamesFiles(table = "attachment")
  String photo;

  String words = "";
  String takerName;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
