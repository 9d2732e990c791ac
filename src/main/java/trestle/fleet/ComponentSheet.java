package trestle.fleet;

import java.nio.charset.StandardCharsets;
import java.util.UUID;

/**
 * A serial-numbered part, as stated in one view.
 *
 * @param owner whose it is, or "" where nobody said
 */
public record ComponentSheet(
    UUID id,
    PartKind kind,
    String partNumber,
    String serial,
    String description,
    String manufacturer,
    String owner) {

  /**
   * What two writings of one part number have in common: its letters A to Z and digits alone. The
   * column part_key says the same.
   */
  public static String partKey(String partNumber) {
    StringBuilder key = new StringBuilder(partNumber.length());
    for (int i = 0; i < partNumber.length(); i++) {
      char c = partNumber.charAt(i);
      if (c >= 'a' && c <= 'z') {
        key.append((char) (c - 'a' + 'A'));
      } else if (c >= 'A' && c <= 'Z' || c >= '0' && c <= '9') {
        key.append(c);
      }
    }
    return key.toString();
  }

  /** A mark of what is stated: who states it anew names the one that they read. */
  String mark() {
    String stated = String.join("\u001f", partNumber, serial, description, manufacturer, owner);
    return UUID.nameUUIDFromBytes(stated.getBytes(StandardCharsets.UTF_8)).toString();
  }

  /** "Engine, part PN-1, serial 77". */
  public String words() {
    return description + ", part " + partNumber + ", serial " + serial;
  }
}
