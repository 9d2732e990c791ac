package trestle.fleet;

import java.util.UUID;

/** A serial-numbered part, as stated in one view. */
public record ComponentSheet(
    UUID id,
    PartKind kind,
    String partNumber,
    String serial,
    String description,
    String manufacturer) {

  /** "Engine, part PN-1, serial 77". */
  public String words() {
    return description + ", part " + partNumber + ", serial " + serial;
  }
}
