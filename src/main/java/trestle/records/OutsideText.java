package trestle.records;

import java.util.List;
import java.util.Locale;
import trestle.ledger.PrintedProof;
import trestle.ledger.SignedHead;

/**
 * A printed proof or a signed head as somebody pastes or scans it: with an address before it, in
 * small letters, in many lines.
 *
 * @param proof null where only a head was handed in
 */
public record OutsideText(SignedHead head, PrintedProof proof) {
  private static final String PROOF = "TRESTLE-PROOF-";
  private static final String HEAD = "TRESTLE-HEAD-";

  /** Longer than any proof there can be. */
  private static final int MOST = 10_000;

  /**
   * @throws IllegalArgumentException saying in a sentence what is wrong with it
   */
  public static OutsideText parse(String given) {
    if (given.length() > MOST) {
      throw new IllegalArgumentException("This is longer than any proof.");
    }
    String text = given.replaceAll("\\s", "").toUpperCase(Locale.ROOT).replace("(END)", "");
    if (text.contains(PROOF)) {
      PrintedProof proof = PrintedProof.parse(text.substring(text.indexOf(PROOF)));
      return new OutsideText(proof.head(), proof);
    }
    if (text.contains(HEAD)) {
      return new OutsideText(SignedHead.parse(text.substring(text.indexOf(HEAD))), null);
    }
    throw new IllegalArgumentException(
        "This is neither a printed proof nor a signed head: those begin with TRESTLE-PROOF-1 or"
            + " TRESTLE-HEAD-1.");
  }

  /** What is wrong with it before any ledger is asked, in sentences; empty when nothing is. */
  public List<String> troubles() {
    if (isProof()) {
      return proof.troubles();
    }
    return head.verify()
        ? List.of()
        : List.of("The signature does not belong to this head and this public key.");
  }

  public boolean isProof() {
    return proof != null;
  }
}
