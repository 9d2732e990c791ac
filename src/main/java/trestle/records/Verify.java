package trestle.records;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import trestle.ledger.verify.Verdict;
import trestle.ledger.verify.Verifier;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * Verifies an operator's ledger and keeps what was found. In several transactions: the long one
 * reads, the short one writes.
 */
@ApplicationScoped
public class Verify {
  @Inject Verifier verifier;
  @Inject Verifications verifications;
  @Inject InstantSource clock;

  /**
   * @param given a head or proof from outside to hold against the ledger, or null
   * @throws Refusal when that is of another ledger, or does not hold by itself
   */
  public VerifiedLine run(Viewer viewer, OutsideText given) {
    if (given != null) {
      refuseMistaken(viewer, given);
    }
    Instant began = clock.instant();
    Verdict verdict = verifier.verify(viewer.operatorId(), false);
    List<String> troubles = given == null ? List.of() : verifications.troubles(viewer, given);
    return verifications.keep(viewer, verdict, troubles, began);
  }

  /** A slip of whoever pastes says nothing about the ledger here. */
  private static void refuseMistaken(Viewer viewer, OutsideText given) {
    if (!given.head().operatorId().equals(viewer.operatorId())) {
      throw new Refusal("outside", "This head or proof is of another operator’s ledger.");
    }
    if (!given.troubles().isEmpty()) {
      throw new Refusal("outside", given.troubles().get(0));
    }
  }
}
