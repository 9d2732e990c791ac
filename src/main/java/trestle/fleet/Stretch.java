package trestle.fleet;

import java.util.UUID;

/**
 * Components of one part number, whatever its blanks and hyphens, with serials whose one number
 * lies from first to last.
 *
 * @param whose question it belongs to: a paragraph's id
 * @param partKey from {@link ComponentSheet#partKey}
 * @param whole whatever the number is, and however it is written
 */
public record Stretch(UUID whose, String partKey, long first, long last, boolean whole) {

  public static Stretch all(UUID whose, String partKey) {
    return new Stretch(whose, partKey, 0, Long.MAX_VALUE, true);
  }

  public static Stretch between(UUID whose, String partKey, long first, long last) {
    return new Stretch(whose, partKey, first, last, false);
  }
}
