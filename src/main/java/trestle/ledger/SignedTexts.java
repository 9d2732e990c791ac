package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;

/** Signs with the operator's key what is no head. Within the caller's transaction. */
@ApplicationScoped
public class SignedTexts {
  @Inject KeyRing keys;

  public SignedText sign(Act act, String tag, String what) {
    KeyRing.Opened key = keys.signer(act);
    SignedText bare = new SignedText(tag, act.operatorId(), what, key.shown(), new byte[0]);
    byte[] signature =
        Ed25519.sign(key.secret(), bare.statement().getBytes(StandardCharsets.US_ASCII));
    return new SignedText(tag, act.operatorId(), what, key.shown(), signature);
  }
}
