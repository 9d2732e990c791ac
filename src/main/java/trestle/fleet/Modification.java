package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** What holds of one modification or repair from a moment on; the newest row counts. */
@Entity
@Table(name = "modification")
@Kind(value = "modification", version = 2)
class Modification extends Filed {
  UUID modificationId;
  UUID aircraftId;
  String code;
  String title;
  String kind;
  boolean major;
  String approval;
  String formReference;
  String systems;
  String remarks;
  boolean embodied;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }

  Configuration.Mod sheet() {
    return new Configuration.Mod(
        modificationId,
        code,
        title,
        kind.equals("repair"),
        major,
        approval,
        formReference,
        systems,
        remarks,
        embodied,
        happenedOn());
  }
}
