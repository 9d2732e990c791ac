package trestle.ledger;

import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.regex.Pattern;
import trestle.formats.Base32;

/**
 * How an operator's ledger stood at a moment, signed with the operator's key. Whoever keeps one can
 * show later that what it counts has not been changed since.
 *
 * <p>As text, one line of capitals, digits, dots, hyphens and colons (docs/ledger.md):
 *
 * <pre>TRESTLE-HEAD-1.operator.size.time.root.key.signature</pre>
 *
 * The signature is over that text up to the dot before it.
 *
 * @param root of the tree of the first {@code size} lines, 32 bytes
 * @param at when it was signed, to the second
 * @param publicKey Ed25519, 32 bytes
 * @param signature Ed25519, 64 bytes
 */
public record SignedHead(
    UUID operatorId, long size, byte[] root, Instant at, byte[] publicKey, byte[] signature) {
  static final String TAG = "TRESTLE-HEAD-1";
  static final int ROOT_BYTES = 32;
  static final int FIELDS = 7;

  private static final Pattern COUNT = Pattern.compile("[1-9][0-9]{0,17}");
  private static final Pattern ID =
      Pattern.compile("[0-9A-F]{8}-[0-9A-F]{4}-[0-9A-F]{4}-[0-9A-F]{4}-[0-9A-F]{12}");
  private static final Pattern TIME =
      Pattern.compile("[0-9]{4}-[0-9]{2}-[0-9]{2}T[0-9]{2}:[0-9]{2}:[0-9]{2}Z");

  private static final String NO_MOMENT = "The time is no moment of the calendar.";

  public SignedHead {
    at = at.truncatedTo(ChronoUnit.SECONDS);
  }

  static SignedHead signed(
      UUID operatorId, long size, byte[] root, Instant at, byte[] secret, byte[] publicKey) {
    SignedHead bare = new SignedHead(operatorId, size, root, at, publicKey, new byte[0]);
    byte[] signature = Ed25519.sign(secret, bytes(bare.statement()));
    return new SignedHead(operatorId, size, root, at, publicKey, signature);
  }

  /** Whether the holder of the key signed exactly this; not whose key it is. */
  public boolean verify() {
    return Ed25519.verify(publicKey, bytes(statement()), signature);
  }

  /** What the signature is over. */
  public String statement() {
    return String.join(
        ".",
        TAG,
        operatorId.toString().toUpperCase(Locale.ROOT),
        Long.toString(size),
        at.toString(),
        Base32.of(root),
        Base32.of(publicKey));
  }

  public String text() {
    return statement() + "." + Base32.of(signature);
  }

  /**
   * Reads back what {@link #text} wrote, and nothing else; spaces and line ends are passed over.
   *
   * @throws IllegalArgumentException saying in a sentence what is wrong with it
   */
  public static SignedHead parse(String text) {
    List<String> fields = List.of(text.replaceAll("\\s", "").split("\\.", -1));
    if (!fields.get(0).equals(TAG)) {
      throw new IllegalArgumentException("A signed head begins with " + TAG + ".");
    }
    if (fields.size() != FIELDS) {
      throw new IllegalArgumentException(
          "A signed head has " + FIELDS + " parts between dots, this has " + fields.size() + ".");
    }
    return read(fields);
  }

  static SignedHead read(List<String> fields) {
    return new SignedHead(
        id(fields.get(1)),
        count(fields.get(2), "size"),
        hash(fields.get(4), ROOT_BYTES, "root"),
        time(fields.get(3)),
        hash(fields.get(5), Ed25519.KEY_BYTES, "public key"),
        hash(fields.get(6), Ed25519.SIGNATURE_BYTES, "signature"));
  }

  static UUID id(String field) {
    return UUID.fromString(matching(ID, field, "operator"));
  }

  static long count(String field, String what) {
    return Long.parseLong(matching(COUNT, field, what));
  }

  static byte[] hash(String field, int bytes, String what) {
    try {
      byte[] hash = Base32.parse(field);
      if (hash.length == bytes) {
        return hash;
      }
      throw new IllegalArgumentException("must be " + bytes + " bytes");
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException("The " + what + " " + e.getMessage() + ".", e);
    }
  }

  /** The hour 24 and the second 60 would be another text of the same moment. */
  private static Instant time(String field) {
    try {
      Instant time = Instant.parse(matching(TIME, field, "time"));
      if (time.toString().equals(field)) {
        return time;
      }
    } catch (DateTimeException e) {
      throw new IllegalArgumentException(NO_MOMENT, e);
    }
    throw new IllegalArgumentException(NO_MOMENT);
  }

  private static String matching(Pattern pattern, String field, String what) {
    if (!pattern.matcher(field).matches()) {
      throw new IllegalArgumentException("The " + what + " is not written as in a signed head.");
    }
    return field;
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.US_ASCII);
  }
}
