package trestle.ledger;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * On a kind whose rows repeat what a row that is not filed says, each column under its name with
 * "of_" before it: so that the ledger holds it, and that the other row can be checked by it. A row
 * in which all of them are empty repeats nothing.
 */
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.TYPE)
public @interface Repeats {
  /** The other table. */
  String table();

  /** The column of the filed row that names the other row. */
  String by();

  /** The other table's columns. */
  String[] columns();
}
