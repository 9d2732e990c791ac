package trestle.workshop;

import java.math.BigDecimal;
import trestle.reckoning.Compression;

/**
 * What one component's own limit says of a reading. There is no default: without a stated limit
 * nothing is said (AC 43.13-1B 8-14 itself stands only where the engine's maker gives none).
 *
 * @param within null where there is no verdict
 */
public record ReadingVerdict(Boolean within, String words) {
  static final ReadingVerdict NONE =
      new ReadingVerdict(null, "No verdict: no limit of its own is stated.");

  /**
   * @param limit the newest of its kind for that component, or null
   */
  static ReadingVerdict of(ReadingSheet reading, Limit limit) {
    if (limit == null || reading.value() == null) {
      return NONE;
    }
    if (limit.byReference() && reading.referenceReading() == null) {
      return new ReadingVerdict(
          null,
          "No verdict: the reference orifice was not read that day (" + limit.source() + ").");
    }
    if (reading.supply() != null
        && reading.supply().compareTo(Compression.USUAL_SUPPLY) != 0
        && !limit.byReference()) {
      return new ReadingVerdict(
          null,
          "No verdict: it was taken at a supply of "
              + ReadingSheet.plain(reading.supply())
              + " psi, and a limit in psi is for "
              + ReadingSheet.plain(Compression.USUAL_SUPPLY)
              + ".");
    }
    BigDecimal least = limit.byReference() ? reading.referenceReading() : limit.least();
    if (least != null && reading.value().compareTo(least) < 0) {
      return new ReadingVerdict(
          false, "Below " + ReadingSheet.plain(least) + ": act by " + limit.source() + ".");
    }
    if (limit.most() != null && reading.value().compareTo(limit.most()) > 0) {
      return new ReadingVerdict(
          false, "Above " + ReadingSheet.plain(limit.most()) + ": act by " + limit.source() + ".");
    }
    return new ReadingVerdict(true, "Within its limit (" + limit.source() + ").");
  }

  public boolean isBad() {
    return Boolean.FALSE.equals(within);
  }

  /**
   * A component's own limit.
   *
   * @param byReference it must read no less than the reference orifice did that day
   */
  public record Limit(
      ReadingKind kind, BigDecimal least, BigDecimal most, boolean byReference, String source) {

    static Limit of(ReadingLimit row) {
      return new Limit(
          ReadingKind.parse(row.kind), row.least, row.most, row.byReference, row.source);
    }

    /** "at least 60 psi, by Manual 72-10". */
    public String words() {
      StringBuilder words = new StringBuilder();
      if (byReference) {
        words.append("at least the reference orifice’s reading of the day");
      }
      if (least != null && !byReference) {
        words.append("at least ").append(ReadingSheet.plain(least)).append(' ').append(kind.unit());
      }
      if (most != null) {
        words.append(words.isEmpty() ? "" : ", ").append("at most ");
        words.append(ReadingSheet.plain(most)).append(' ').append(kind.unit());
      }
      return words.append(", by ").append(source).toString();
    }
  }
}
