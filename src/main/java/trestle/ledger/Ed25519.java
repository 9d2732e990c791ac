package trestle.ledger;

import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.Signature;
import java.security.SignatureException;
import java.security.spec.PKCS8EncodedKeySpec;
import java.security.spec.X509EncodedKeySpec;
import java.util.Arrays;
import java.util.HexFormat;

/** Signatures of RFC 8032 by the JDK, with keys as the bare 32 bytes. */
final class Ed25519 {
  static final int KEY_BYTES = 32;
  static final int SIGNATURE_BYTES = 64;

  /** What RFC 8410 puts before the 32 bytes. */
  private static final byte[] PUBLIC = HexFormat.of().parseHex("302a300506032b6570032100");

  private static final byte[] PRIVATE = HexFormat.of().parseHex("302e020100300506032b657004220420");

  private Ed25519() {}

  /** A new key's two halves. */
  record Pair(byte[] secret, byte[] shown) {}

  static Pair make() {
    try {
      KeyPair pair = KeyPairGenerator.getInstance("Ed25519").generateKeyPair();
      return new Pair(
          after(PRIVATE, pair.getPrivate().getEncoded()),
          after(PUBLIC, pair.getPublic().getEncoded()));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  static byte[] sign(byte[] secret, byte[] message) {
    try {
      Signature signature = Signature.getInstance("Ed25519");
      signature.initSign(privateKey(secret));
      signature.update(message);
      return signature.sign();
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }

  static boolean verify(byte[] shown, byte[] message, byte[] signed) {
    try {
      Signature signature = Signature.getInstance("Ed25519");
      signature.initVerify(publicKey(shown));
      signature.update(message);
      return signature.verify(signed);
    } catch (SignatureException e) {
      return false;
    } catch (GeneralSecurityException e) {
      // Bytes that are no point of the curve are no key.
      return false;
    }
  }

  private static PrivateKey privateKey(byte[] secret) throws GeneralSecurityException {
    return KeyFactory.getInstance("Ed25519")
        .generatePrivate(new PKCS8EncodedKeySpec(joined(PRIVATE, secret)));
  }

  private static PublicKey publicKey(byte[] shown) throws GeneralSecurityException {
    return KeyFactory.getInstance("Ed25519")
        .generatePublic(new X509EncodedKeySpec(joined(PUBLIC, shown)));
  }

  private static byte[] after(byte[] prefix, byte[] encoded) {
    if (!Arrays.equals(prefix, Arrays.copyOf(encoded, prefix.length))
        || encoded.length != prefix.length + KEY_BYTES) {
      throw new IllegalStateException("This Java writes Ed25519 keys in another form");
    }
    return Arrays.copyOfRange(encoded, prefix.length, encoded.length);
  }

  private static byte[] joined(byte[] prefix, byte[] key) {
    byte[] all = Arrays.copyOf(prefix, prefix.length + key.length);
    System.arraycopy(key, 0, all, prefix.length, key.length);
    return all;
  }
}
