package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.UUID;
import trestle.formats.Base32;

/**
 * The heads of an operator's ledger, signed for others to keep. Within the caller's transaction.
 */
@ApplicationScoped
public class Heads {
  @Inject LedgerRepository repository;
  @Inject KeyRing keys;

  /** The ledger as it is now, signed by the operator's key as at the act's moment. */
  public SignedHead signed(Act act) {
    KeyRing.Opened key = keys.signer(act);
    LedgerHead head = repository.freshHead(act.operatorId());
    return SignedHead.signed(
        act.operatorId(), head.size, head.root, act.recordedAt(), key.secret(), key.shown());
  }

  /** Whether the operator filed this public key as its own. */
  public boolean isKeyOf(UUID operatorId, byte[] publicKey) {
    return repository.hasKey(operatorId, Base32.of(publicKey));
  }
}
