package trestle.ledger;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;

/** The public half of a key that heads of the operator's ledger are signed with; base 32. */
@Entity
@Table(name = "ledger_key")
@Kind("ledger-key")
class LedgerKey extends Filed {
  String publicKey;
}
