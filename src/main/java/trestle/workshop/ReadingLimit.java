package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** By what readings of one component are judged; the newest of a kind counts. */
@Entity
@Table(name = "reading_limit")
@Kind(value = "reading-limit", version = 2)
class ReadingLimit extends Revocable {
  UUID componentId;
  String kind;
  BigDecimal least;
  BigDecimal most;
  boolean byReference;
  String source;
}
