package trestle.ledger;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.util.Arrays;
import java.util.Optional;
import javax.crypto.AEADBadTagException;
import javax.crypto.Cipher;
import javax.crypto.spec.GCMParameterSpec;
import javax.crypto.spec.SecretKeySpec;

/**
 * Closes what is kept in the database so that only a holder of the installation's secret opens it:
 * AES-256-GCM, with a nonce of its own before each text.
 */
final class Seal {
  private static final int NONCE_BYTES = 12;
  private static final int TAG_BITS = 128;

  private final SecretKeySpec key;

  Seal(String secret) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      digest.update("trestle ledger key seal".getBytes(StandardCharsets.UTF_8));
      key = new SecretKeySpec(digest.digest(secret.getBytes(StandardCharsets.UTF_8)), "AES");
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  /**
   * @param belongsTo what it is; opens only as the same
   */
  byte[] close(byte[] secret, String belongsTo) {
    byte[] nonce = new byte[NONCE_BYTES];
    new SecureRandom().nextBytes(nonce);
    try {
      byte[] closed = cipher(Cipher.ENCRYPT_MODE, nonce, belongsTo).doFinal(secret);
      byte[] sealed = Arrays.copyOf(nonce, NONCE_BYTES + closed.length);
      System.arraycopy(closed, 0, sealed, NONCE_BYTES, closed.length);
      return sealed;
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  /** What was closed; empty when another secret closed it, or as something else. */
  Optional<byte[]> open(byte[] sealed, String belongsTo) {
    if (sealed.length <= NONCE_BYTES) {
      return Optional.empty();
    }
    try {
      Cipher cipher = cipher(Cipher.DECRYPT_MODE, Arrays.copyOf(sealed, NONCE_BYTES), belongsTo);
      return Optional.of(cipher.doFinal(sealed, NONCE_BYTES, sealed.length - NONCE_BYTES));
    } catch (AEADBadTagException e) {
      return Optional.empty();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  private Cipher cipher(int mode, byte[] nonce, String belongsTo) throws GeneralSecurityException {
    Cipher cipher = Cipher.getInstance("AES/GCM/NoPadding");
    cipher.init(mode, key, new GCMParameterSpec(TAG_BITS, nonce));
    cipher.updateAAD(belongsTo.getBytes(StandardCharsets.UTF_8));
    return cipher;
  }
}
