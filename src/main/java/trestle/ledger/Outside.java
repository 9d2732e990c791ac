package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;

/**
 * Heads and proofs that others kept, beside the ledger as it is here: what shows a ledger that was
 * computed anew, or cut. A handful of statements, within the caller's transaction.
 */
@ApplicationScoped
public class Outside {
  @Inject LedgerRepository repository;
  @Inject Heads heads;
  @Inject Proofs proofs;
  @Inject Lines lines;

  /**
   * Whether the ledger here is the one that a head was signed of, grown or not.
   *
   * @return what disagrees, in sentences; empty when all agrees
   */
  public List<String> troubles(UUID operatorId, SignedHead head) {
    List<String> troubles = new ArrayList<>();
    if (!head.operatorId().equals(operatorId)) {
      troubles.add("It is of another operator’s ledger.");
    } else if (!head.verify()) {
      troubles.add("The signature does not belong to this head and this public key.");
    } else if (!heads.isKeyOf(operatorId, head.publicKey())) {
      troubles.add("The key that signed it is none of this operator’s.");
    } else {
      compare(operatorId, head, troubles);
    }
    return troubles;
  }

  private void compare(UUID operatorId, SignedHead head, List<String> troubles) {
    long size = repository.freshHead(operatorId).size;
    if (head.size() > size) {
      troubles.add(
          "It counts %d lines, but the ledger here has %d: its end is missing."
              .formatted(head.size(), size));
    } else if (!Arrays.equals(proofs.root(operatorId, head.size()), head.root())) {
      troubles.add(
          "The first %d lines of the ledger here lead to another root: they are not those that were signed."
              .formatted(head.size()));
    }
  }

  /** The same of a printed proof: its head, and its record at its place. */
  public List<String> troubles(UUID operatorId, PrintedProof proof) {
    List<String> troubles = new ArrayList<>(proof.troubles());
    if (troubles.isEmpty()) {
      troubles.addAll(troubles(operatorId, proof.head()));
    }
    if (troubles.isEmpty() && !isHere(operatorId, proof.inclusion())) {
      troubles.add(
          "Record %d of the ledger here is another one.".formatted(proof.inclusion().seq()));
    }
    return troubles;
  }

  private boolean isHere(UUID operatorId, Inclusion inclusion) {
    return lines
        .at(operatorId, inclusion.seq())
        .filter(line -> Arrays.equals(line.leaf(), inclusion.leaf()))
        .isPresent();
  }
}
