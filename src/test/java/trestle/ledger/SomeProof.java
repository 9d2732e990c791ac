package trestle.ledger;

import java.util.List;

/** Proofs that hold, of a ledger that nobody keeps. */
public final class SomeProof {

  public static String text() {
    return text(3, 13);
  }

  public static String text(int seq, int size) {
    return PrintedProofTest.proof(seq, size).text();
  }

  /** Other texts of the operator and the moment of proofs that hold: none of them is a proof. */
  public static List<String> writtenOtherwise() {
    return PrintedProofTest.writtenOtherwise();
  }

  private SomeProof() {}
}
