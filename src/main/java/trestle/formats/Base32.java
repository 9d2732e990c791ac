package trestle.formats;

/**
 * Base 32 of RFC 4648 without padding: capitals and the digits 2 to 7 alone, which a QR code packs
 * twice as tightly as small letters. One text for one value: what another text would also decode to
 * is refused.
 */
public final class Base32 {
  private static final String ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567";
  private static final int BITS = 5;

  private Base32() {}

  public static String of(byte[] bytes) {
    StringBuilder text = new StringBuilder((bytes.length * 8 + BITS - 1) / BITS);
    int held = 0;
    int bits = 0;
    for (byte each : bytes) {
      held = (held << 8 | each & 0xff) & 0xfff;
      bits += 8;
      while (bits >= BITS) {
        bits -= BITS;
        text.append(ALPHABET.charAt(held >> bits & 31));
      }
    }
    if (bits > 0) {
      text.append(ALPHABET.charAt(held << BITS - bits & 31));
    }
    return text.toString();
  }

  /**
   * @throws IllegalArgumentException when it is not what {@link #of} writes
   */
  public static byte[] parse(String text) {
    byte[] bytes = new byte[text.length() * BITS / 8];
    int held = 0;
    int bits = 0;
    int at = 0;
    for (int i = 0; i < text.length(); i++) {
      int value = ALPHABET.indexOf(text.charAt(i));
      if (value < 0) {
        throw new IllegalArgumentException("must be letters A to Z and digits 2 to 7");
      }
      held = (held << BITS | value) & 0xfff;
      bits += BITS;
      if (bits >= 8) {
        bits -= 8;
        bytes[at++] = (byte) (held >> bits);
      }
    }
    if (!of(bytes).equals(text)) {
      throw new IllegalArgumentException("must be base 32 without bits left over");
    }
    return bytes;
  }
}
