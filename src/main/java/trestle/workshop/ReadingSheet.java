package trestle.workshop;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.UUID;
import trestle.reckoning.Compression;

/**
 * One reading.
 *
 * @param componentId whose it is; null for the aircraft
 * @param place such as "Cylinder 3", "Left magneto"
 * @param value null where it is told in words
 * @param referenceReading of the rig's reference orifice that day, in psi; null where not taken
 */
public record ReadingSheet(
    UUID id,
    UUID lineId,
    UUID componentId,
    ReadingKind kind,
    String place,
    BigDecimal value,
    BigDecimal supply,
    BigDecimal referenceReading,
    String words,
    String readerName,
    LocalDate on) {

  static ReadingSheet of(WorkReading row) {
    return new ReadingSheet(
        row.id(),
        row.lineEntryId,
        row.componentId,
        ReadingKind.parse(row.kind),
        row.place,
        row.value,
        row.supply,
        row.referenceReading,
        row.words,
        row.readerName,
        row.happenedOn());
  }

  /** "72/80, 10 % lost, reference orifice 43", "75 rpm", or the words. */
  public String shown() {
    if (value == null) {
      return words;
    }
    if (kind != ReadingKind.COMPRESSION) {
      return plain(value) + " " + kind.unit() + (words.isEmpty() ? "" : ", " + words);
    }
    Compression compression = new Compression(value, supply);
    return compression
        + ", "
        + plain(compression.lossPercent())
        + " % lost"
        + (referenceReading == null ? "" : ", reference orifice " + plain(referenceReading))
        + (words.isEmpty() ? "" : ", " + words);
  }

  /** "Differential compression, Cylinder 3: 72/80, 10 % lost". */
  public String said() {
    return kind.label() + ", " + place + ": " + shown();
  }

  static String plain(BigDecimal value) {
    return value.signum() == 0 ? "0" : value.stripTrailingZeros().toPlainString();
  }
}
