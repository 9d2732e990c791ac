package trestle.ledger;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.IdClass;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.util.UUID;

/** The private half of a {@link LedgerKey}, closed with the installation's secret. Not filed. */
@Entity
@Table(name = "ledger_key_seal")
@IdClass(LedgerKeySeal.Key.class)
class LedgerKeySeal {
  record Key(UUID operatorId, UUID keyId) implements Serializable {}

  @Id UUID operatorId;
  @Id UUID keyId;
  byte[] sealed;
}
