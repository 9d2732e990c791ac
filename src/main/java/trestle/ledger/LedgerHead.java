package trestle.ledger;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.util.UUID;

@Entity
@Table(name = "ledger_head")
class LedgerHead {
  @Id UUID operatorId;
  long size;
  byte[] frontier;
  byte[] root;

  void set(MerkleFrontier edge) {
    size = edge.size();
    frontier = edge.bytes();
    root = edge.root();
  }
}
