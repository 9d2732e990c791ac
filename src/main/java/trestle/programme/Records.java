package trestle.programme;

import java.time.LocalDate;
import trestle.ledger.View;

/** The view that shows every record of this room. */
final class Records {
  static final View ALL = new View(LocalDate.of(9999, 12, 31), null);

  private Records() {}
}
