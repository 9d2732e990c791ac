package trestle.ledger;

/** Proofs that hold, of a ledger that nobody keeps. */
public final class SomeProof {

  public static String text() {
    return text(3, 13);
  }

  public static String text(int seq, int size) {
    return PrintedProofTest.proof(seq, size).text();
  }

  private SomeProof() {}
}
