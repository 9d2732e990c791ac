package trestle.apron;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.MessageDigest;
import java.util.Base64;
import javax.net.ssl.KeyManagerFactory;
import javax.net.ssl.SSLContext;

/**
 * A self-signed certificate, made by the JDK's keytool for one test.
 *
 * @param pin the SHA-256 of its public key, in Base64: a browser that is told of it trusts the
 *     certificate as one does whose issuer it knows
 */
record Certificate(SSLContext tls, String pin) {
  private static final String PASSWORD = "for-one-test";
  private static final String ALIAS = "phone";

  static Certificate of(String host, Path directory) throws IOException, GeneralSecurityException {
    Path store = directory.resolve("certificate.p12");
    make(host, store);
    KeyStore keys = KeyStore.getInstance("PKCS12");
    try (InputStream in = Files.newInputStream(store)) {
      keys.load(in, PASSWORD.toCharArray());
    }
    KeyManagerFactory managers =
        KeyManagerFactory.getInstance(KeyManagerFactory.getDefaultAlgorithm());
    managers.init(keys, PASSWORD.toCharArray());
    SSLContext tls = SSLContext.getInstance("TLS");
    tls.init(managers.getKeyManagers(), null, null);
    byte[] key = keys.getCertificate(ALIAS).getPublicKey().getEncoded();
    byte[] hash = MessageDigest.getInstance("SHA-256").digest(key);
    return new Certificate(tls, Base64.getEncoder().encodeToString(hash));
  }

  private static void make(String host, Path store) throws IOException {
    Process keytool =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "keytool").toString(),
                "-genkeypair",
                "-alias",
                ALIAS,
                "-keyalg",
                "EC",
                "-groupname",
                "secp256r1",
                "-dname",
                "CN=" + host,
                "-ext",
                "SAN=dns:" + host,
                "-validity",
                "30",
                "-storetype",
                "PKCS12",
                "-storepass",
                PASSWORD,
                "-keystore",
                store.toString())
            .redirectErrorStream(true)
            .start();
    String said = new String(keytool.getInputStream().readAllBytes());
    if (!Files.exists(store)) {
      throw new AssertionError("No certificate: " + said);
    }
  }
}
