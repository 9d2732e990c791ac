package trestle.records;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.ZoneOffset;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Heads;
import trestle.ledger.Outside;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * What this installation may say to anybody about a proof: whether the ledger it keeps agrees. Only
 * to who holds a head that was signed with a key of that ledger, and nothing but yes or no.
 */
@ApplicationScoped
public class Here {
  @Inject Heads heads;
  @Inject Outside outside;

  enum Answer {
    AGREES,
    DISAGREES,
    /** No such operator, or the key is none of theirs: the same answer, so that nobody learns. */
    UNKNOWN
  }

  /** Nobody, looking at one operator. */
  public static Viewer anybody(UUID operatorId) {
    return new Viewer(null, "", false, operatorId, null, ZoneOffset.UTC, true, Set.of());
  }

  @Reading
  public Answer answer(Viewer anybody, OutsideText given) {
    UUID operator = anybody.operatorId();
    if (!given.head().verify() || !heads.isKeyOf(operator, given.head().publicKey())) {
      return Answer.UNKNOWN;
    }
    boolean agrees =
        given.isProof()
            ? outside.troubles(operator, given.proof()).isEmpty()
            : outside.troubles(operator, given.head()).isEmpty();
    return agrees ? Answer.AGREES : Answer.DISAGREES;
  }
}
