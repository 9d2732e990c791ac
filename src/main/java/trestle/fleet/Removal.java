package trestle.fleet;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import jakarta.persistence.Transient;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.ledger.LedgerAircraft;

@Entity
@Table(name = "removal")
@Kind("removal")
class Removal extends Filed {
  UUID fitmentId;
  String why;
  boolean scheduled;

  /** The certificate of release to service, or null where none was named. */
  String released;

  @Column(name = "void")
  boolean isVoid;

  /** For the ledger's line only; the fitment says it. */
  @Transient
  @LedgerAircraft(table = "fitment", by = "fitment_id")
  UUID fromAircraft;

  @Override
  public UUID ledgerAircraft() {
    return fromAircraft;
  }
}
