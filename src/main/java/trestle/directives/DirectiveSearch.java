package trestle.directives;

import jakarta.persistence.Entity;
import java.time.LocalDate;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A source was looked through for new directives; the newest of a source counts. */
@Entity
@Kind("directive-search")
class DirectiveSearch extends Filed {
  String source;
  LocalDate searchedThrough;
  LocalDate nextOn;
  String remark = "";
}
