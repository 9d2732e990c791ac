package trestle.ledger;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import trestle.formats.Base32;

/**
 * What an operator's key signed besides a head, in one line:
 *
 * <pre>tag.operator.what.key.signature</pre>
 *
 * The signature is over the text up to the dot before it; the tag keeps one kind of statement from
 * being taken for another.
 *
 * @param what a hash in hexadecimal digits
 */
public record SignedText(
    String tag, UUID operatorId, String what, byte[] publicKey, byte[] signature) {
  private static final Pattern FORM =
      Pattern.compile("([A-Z0-9-]{1,40})\\.([0-9A-F-]{36})\\.([0-9a-f]{64})\\.(\\w+)\\.(\\w+)");

  /** Whether the holder of the key signed exactly this; not whose key it is. */
  public boolean verify() {
    return Ed25519.verify(publicKey, statement().getBytes(StandardCharsets.US_ASCII), signature);
  }

  public String statement() {
    return String.join(
        ".", tag, operatorId.toString().toUpperCase(Locale.ROOT), what, Base32.of(publicKey));
  }

  public String text() {
    return statement() + "." + Base32.of(signature);
  }

  /**
   * Reads back what {@link #text} wrote; spaces and line ends are passed over.
   *
   * @throws IllegalArgumentException when it is none
   */
  public static SignedText parse(String text) {
    Matcher parts = FORM.matcher(text.replaceAll("\\s", ""));
    if (!parts.matches()) {
      throw new IllegalArgumentException("The signature is not written as one.");
    }
    return new SignedText(
        parts.group(1),
        SignedHead.id(parts.group(2)),
        parts.group(3),
        Base32.parse(parts.group(4)),
        Base32.parse(parts.group(5)));
  }
}
