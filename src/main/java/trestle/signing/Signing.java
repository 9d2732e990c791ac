package trestle.signing;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import trestle.formats.CanonicalJson;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/**
 * One statement to be signed in a press.
 *
 * @param record the row it is about, which is filed together with the signature
 * @param ordinal 1 for the first signature under that record, 2 for the next
 * @param statement exactly as it was shown
 * @param content everything that was shown with it
 */
public record Signing(Filed record, int ordinal, String statement, JsonNode content) {

  public static Signing of(Filed record, String statement, JsonNode content) {
    return new Signing(record, 1, statement, content);
  }

  /** The ledger's word for what is signed. */
  String kind() {
    return record.getClass().getAnnotation(Kind.class).value();
  }

  /** What is hashed: the statement, the content, and the record they belong to. */
  String signed() {
    ObjectNode whole = JsonNodeFactory.instance.objectNode();
    whole.put("kind", kind());
    whole.put("record", record.id().toString());
    whole.put("statement", statement);
    whole.set("content", content);
    return CanonicalJson.of(whole);
  }

  /** SHA-256 of a text's UTF-8 bytes, in hexadecimal. */
  public static String sha256(String text) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(hash);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }
}
