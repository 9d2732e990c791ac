package trestle.workshop;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.UUID;

/**
 * A part that came off, went on or was used.
 *
 * @param movement {@code off}, {@code on} or {@code used}
 * @param evidence the paper that came with it, or "" while there is none
 * @param componentId of a component of the records; else null
 */
public record UsedPart(
    UUID id,
    UUID lineId,
    String movement,
    PartKept kept,
    String description,
    String partNumber,
    String serial,
    String batch,
    BigDecimal quantity,
    String unit,
    String evidence,
    String place,
    UUID componentId,
    LocalDate on) {

  static UsedPart of(PartUse row) {
    return new UsedPart(
        row.id(),
        row.lineEntryId,
        row.movement,
        PartKept.parse(row.partClass),
        row.description,
        row.partNumber,
        row.serial,
        row.batch,
        row.quantity,
        row.unit,
        row.evidence,
        row.place,
        row.componentId,
        row.happenedOn());
  }

  public boolean isOff() {
    return movement.equals(PartUse.OFF);
  }

  /** "Alternator, part AL24, serial 0932". */
  public String words() {
    StringBuilder words = new StringBuilder(description);
    if (!partNumber.isEmpty()) {
      words.append(", part ").append(partNumber);
    }
    if (!serial.isEmpty()) {
      words.append(", serial ").append(serial);
    }
    if (!batch.isEmpty()) {
      words.append(", batch ").append(batch);
    }
    return words.toString();
  }

  /** "2 l", "1". */
  public String amount() {
    String count = quantity.stripTrailingZeros().toPlainString();
    return unit.isEmpty() ? count : count + " " + unit;
  }
}
