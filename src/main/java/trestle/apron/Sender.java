package trestle.apron;

import java.util.UUID;
import trestle.web.Form;
import trestle.web.Viewer;

/**
 * Who writes a report, and in which operator. A report waits on a phone until its own writer is
 * signed in, so it says whose it is, and nobody else's session takes it.
 */
record Sender(UUID person, UUID operator) {
  private static final String PERSON = "written-by";
  private static final String OPERATOR = "written-in";

  static Sender of(Viewer viewer) {
    return new Sender(viewer.personId(), viewer.operatorId());
  }

  /** Whether the form is this sender's; one that says nothing is whoever sends it's. */
  boolean wrote(Form form) {
    return same(person, form.value(PERSON)) && same(operator, form.value(OPERATOR));
  }

  private static boolean same(UUID mine, String said) {
    return said.isEmpty() || said.equals(mine.toString());
  }
}
