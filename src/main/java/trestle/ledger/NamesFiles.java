package trestle.ledger;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * On a column that names kept files by the SHA-256 of their bytes, one or a list of them: so that
 * the bytes can be checked with the record.
 */
@Retention(RetentionPolicy.RUNTIME)
@Target(ElementType.FIELD)
public @interface NamesFiles {
  /** The table with columns {@code sha256} and {@code bytes}. */
  String table();
}
