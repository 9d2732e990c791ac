package trestle.ledger.verify;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.UncheckedIOException;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import trestle.formats.CanonicalJson;
import trestle.ledger.verify.FiledColumn.Shape;

/**
 * Lines written before times were cut to the microsecond first may say them to the nanosecond,
 * which the database rounded. Such a row is as it was filed.
 */
final class FinerTimes {
  private static final int HALF_A_MICROSECOND = 500;

  private FinerTimes() {}

  /** Whether row and line differ in nothing else. */
  static boolean only(FiledTable table, String row, String line) {
    try {
      JsonNode inRow = CanonicalJson.parse(row);
      if (CanonicalJson.parse(line) instanceof ObjectNode inLine) {
        table.columns().stream()
            .filter(column -> column.shape() == Shape.MOMENT && inLine.has(column.name()))
            .forEach(column -> inLine.put(column.name(), rounded(inLine.get(column.name()))));
        return inRow.equals(inLine);
      }
      return false;
    } catch (UncheckedIOException | DateTimeException e) {
      return false;
    }
  }

  private static String rounded(JsonNode moment) {
    return Instant.parse(moment.asText())
        .plusNanos(HALF_A_MICROSECOND)
        .truncatedTo(ChronoUnit.MICROS)
        .toString();
  }
}
