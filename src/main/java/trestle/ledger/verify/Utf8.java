package trestle.ledger.verify;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * Text in UTF-8 that grows and is written over again: the database's bytes never become letters.
 */
final class Utf8 {
  private byte[] bytes = new byte[2_000];
  private int length;

  void clear() {
    length = 0;
  }

  int length() {
    return length;
  }

  boolean endsWith(char ascii) {
    return length > 0 && bytes[length - 1] == ascii;
  }

  Utf8 add(char ascii) {
    room(1);
    bytes[length++] = (byte) ascii;
    return this;
  }

  Utf8 add(byte[] text) {
    return add(text, 0, text.length);
  }

  Utf8 add(byte[] text, int from, int to) {
    room(to - from);
    System.arraycopy(text, from, bytes, length, to - from);
    length += to - from;
    return this;
  }

  Utf8 add(CharSequence text) {
    return add(text.toString().getBytes(StandardCharsets.UTF_8));
  }

  private void room(int more) {
    if (length + more > bytes.length) {
      bytes = Arrays.copyOf(bytes, Math.max(2 * bytes.length, length + more));
    }
  }

  boolean isEqual(byte[] other) {
    return Arrays.equals(bytes, 0, length, other, 0, other.length);
  }

  @Override
  public String toString() {
    return new String(bytes, 0, length, StandardCharsets.UTF_8);
  }
}
