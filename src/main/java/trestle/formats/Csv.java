package trestle.formats;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/** Rows as comma-separated values (RFC 4180). */
public final class Csv {
  private static final Pattern NUMBER = Pattern.compile("-?[0-9]+(\\.[0-9]+)?");

  private Csv() {}

  public static String of(List<List<String>> rows) {
    StringBuilder text = new StringBuilder();
    try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180)) {
      for (List<String> row : rows) {
        printer.printRecord(row.stream().map(Csv::harmless).toList());
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  /** One row of many, with its line end; a number stays a number, whatever its sign. */
  public static String row(List<String> cells) {
    StringBuilder text = new StringBuilder();
    try (CSVPrinter printer = new CSVPrinter(text, CSVFormat.RFC4180)) {
      printer.printRecord(
          cells.stream()
              .map(cell -> NUMBER.matcher(cell).matches() ? cell : harmless(cell))
              .toList());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return text.toString();
  }

  /** What a spreadsheet would take for a formula is led by an apostrophe (OWASP, CSV injection). */
  private static String harmless(String cell) {
    return !cell.isEmpty() && "=+-@\t\r".indexOf(cell.charAt(0)) >= 0 ? "'" + cell : cell;
  }
}
