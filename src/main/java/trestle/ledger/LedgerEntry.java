package trestle.ledger;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.IdClass;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.time.Instant;
import java.util.UUID;

@Entity
@Table(name = "ledger_entry")
@IdClass(LedgerEntry.Key.class)
class LedgerEntry {
  record Key(UUID operatorId, Long seq) implements Serializable {}

  @Id UUID operatorId;
  @Id Long seq;
  Instant recordedAt;
  UUID recordedBy;
  UUID aircraftId;
  String kind;
  int kindVersion;
  UUID recordId;
  String json;
  byte[] leaf;
}
