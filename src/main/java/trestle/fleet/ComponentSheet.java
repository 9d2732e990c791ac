package trestle.fleet;

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

  /** "Engine, part PN-1, serial 77". */
  public String words() {
    return description + ", part " + partNumber + ", serial " + serial;
  }
}
