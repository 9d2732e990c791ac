package trestle.fleet;

import java.util.UUID;

/**
 * Components named together: of one part number, whatever its blanks and hyphens, and with serials
 * whose one number lies from first to last.
 *
 * @param partKey from {@link ComponentSheet#partKey}
 */
public record Named(String partKey, long first, long last) {

  /** Those alone whose serial is not letters around one number: they come with any. */
  public static Named byNoNumber(String partKey) {
    return new Named(partKey, 1, 0);
  }

  boolean isAnyNumber() {
    return first == 0 && last == Long.MAX_VALUE;
  }

  /** As little of a component as tells whether it is named. */
  public record Part(UUID id, String partNumber, String serial) {}
}
