package trestle.records.pack;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A pack that was taken in: whose, of what, under which head; its lines stand beside it. */
@Entity
@Table(name = "taken_pack")
@Kind("taken-pack")
class TakenPack extends Filed {
  UUID aircraftId;
  UUID componentId;
  String subject;
  UUID fromOperator;
  String fromName;
  int formatVersion;
  String fileSha256;
  String manifestSha256;
  String head;
  int lines;
  int filed;

  TakenSheet sheet() {
    PackSubject whose =
        aircraftId == null ? PackSubject.component(componentId) : PackSubject.aircraft(aircraftId);
    return new TakenSheet(
        id(), whose, subject, fromName, happenedOn(), lines, filed, fileSha256, head);
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
