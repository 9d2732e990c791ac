package trestle.ledger;

import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.IdClass;
import jakarta.persistence.Table;
import java.io.Serializable;
import java.util.UUID;

/** The root of a full subtree, kept so that a proof need not read its leaves. Derived. */
@Entity
@Table(name = "ledger_subtree")
@IdClass(LedgerSubtree.Key.class)
class LedgerSubtree {
  /** Smaller ones are computed from their leaves: 2^8 of these are read in a moment. */
  static final int LEAST_LEVEL = 8;

  record Key(UUID operatorId, Integer level, Long place) implements Serializable {}

  @Id UUID operatorId;
  @Id Integer level;
  @Id Long place;
  byte[] root;

  static LedgerSubtree of(UUID operatorId, int level, long place, byte[] root) {
    LedgerSubtree subtree = new LedgerSubtree();
    subtree.operatorId = operatorId;
    subtree.level = level;
    subtree.place = place;
    subtree.root = root;
    return subtree;
  }
}
