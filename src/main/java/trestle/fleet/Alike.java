package trestle.fleet;

import java.util.regex.Pattern;

/**
 * Components of one stretch whose part number is written alike, and their serials too: the same
 * letters around a number with as many digits and zeros before it.
 *
 * @param shape the serial with a 0 for each digit; "" where the stretch asks for no closer look
 * @param length of the number without its zeros; 0 where the stretch asks for no closer look
 * @param number of one of them
 */
public record Alike(
    Stretch stretch, String partNumber, String shape, int length, long number, int many) {
  private static final Pattern DIGITS = Pattern.compile("0+");

  /** The serial of one of them, for all. */
  public String serial() {
    return DIGITS
        .matcher(shape)
        .replaceFirst(
            zeros -> {
              int width = zeros.group().length();
              return "0".repeat(width - Long.toString(number).length()) + number;
            });
  }
}
