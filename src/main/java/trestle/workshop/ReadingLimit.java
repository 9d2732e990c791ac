package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** By what readings of one component are judged; the newest of a kind counts. */
@Entity
@Table(name = "reading_limit")
@Kind("reading-limit")
class ReadingLimit extends Filed {
  UUID componentId;
  String kind;
  BigDecimal least;
  BigDecimal most;
  boolean byReference;
  String source;
}
