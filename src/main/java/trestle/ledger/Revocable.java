package trestle.ledger;

import jakarta.persistence.MappedSuperclass;
import java.lang.reflect.Constructor;

/**
 * A filed row that can be taken away whole, with nothing in its place: by a row alike that corrects
 * it and says so. What a read takes is neither corrected nor such a row.
 */
@MappedSuperclass
public abstract class Revocable extends Filed {
  Boolean voided;

  public boolean isRevoking() {
    return voided != null;
  }

  /** The row that takes this one away. */
  public Revocable revoked(String why) {
    try {
      Constructor<? extends Revocable> made = getClass().getDeclaredConstructor();
      made.setAccessible(true);
      Revocable row = made.newInstance();
      FiledJson.copyOwn(this, row);
      row.voided = true;
      row.happened(happenedAt(), happenedOn());
      row.correct(id(), why);
      return row;
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException(e);
    }
  }

  /** Counts in a view, for queries with {@code :known}: known then, and not taken away by then. */
  public static String stands(String kind, String row) {
    String later = row + "Revoking";
    return row
        + ".voided is null and not exists (select 1 from "
        + kind
        + " "
        + later
        + " where "
        + later
        + ".corrects = "
        + row
        + ".id and "
        + later
        + ".ledgerSeq <= :known)";
  }
}
