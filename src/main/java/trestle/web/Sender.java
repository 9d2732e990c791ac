package trestle.web;

import java.util.UUID;

/**
 * Who writes a report, and in which operator. A report waits on a phone until its own writer is
 * signed in, so it says whose it is, and nobody else's session takes it.
 */
public record Sender(UUID person, UUID operator) {
  private static final String PERSON = "written-by";
  private static final String OPERATOR = "written-in";

  public static Sender of(Viewer viewer) {
    return new Sender(viewer.personId(), viewer.operatorId());
  }

  /**
   * Whether the form is this sender's; one that says nothing is whoever sends it's. What is wrong
   * is noted in the form.
   */
  public boolean wrote(Form form) {
    boolean mine = same(person, form.value(PERSON)) && same(operator, form.value(OPERATOR));
    if (!mine) {
      form.fail("", "Somebody else wrote this report: it is theirs to send, once they sign in.");
    }
    return mine;
  }

  private static boolean same(UUID mine, String said) {
    return said.isEmpty() || said.equals(mine.toString());
  }
}
