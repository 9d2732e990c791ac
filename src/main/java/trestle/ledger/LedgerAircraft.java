package trestle.ledger;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * On a field that is no column but holds {@link Filed#ledgerAircraft()}: which other row says it,
 * so that it can be checked later.
 */
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.FIELD)
public @interface LedgerAircraft {
  /** The table with a column {@code aircraft_id}. */
  String table();

  /** The column of the filed row that names the other row. */
  String by();
}
