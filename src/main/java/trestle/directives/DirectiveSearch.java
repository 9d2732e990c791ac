package trestle.directives;

import jakarta.persistence.Entity;
import java.time.LocalDate;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A source was looked through for new directives; the newest of a source counts. */
@Entity
@Kind("directive-search")
class DirectiveSearch extends Revocable {
  String source;
  LocalDate searchedThrough;
  LocalDate nextOn;
  String remark = "";
}
