package trestle.demo;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;

/** A CSV file of {@code demo-seed/}, as packaged with the program. */
final class SeedFile {
  private static final CSVFormat FORMAT =
      CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();

  /** One line of the file, by column name; what is left empty is "". */
  record Line(CSVRecord cells) {

    String text(String column) {
      return cells.get(column);
    }

    boolean has(String column) {
      return !text(column).isEmpty();
    }

    boolean yes(String column) {
      return text(column).equals("yes");
    }

    int count(String column) {
      return Integer.parseInt(text(column));
    }

    double number(String column) {
      return Double.parseDouble(text(column));
    }

    /** A decimal of hours in whole minutes. */
    long minutes(String column) {
      return Math.round(number(column) * 60);
    }
  }

  static List<Line> lines(String name) {
    String resource = "/demo-seed/" + name;
    try (InputStream in = SeedFile.class.getResourceAsStream(resource)) {
      if (in == null) {
        throw new IllegalStateException("The program was packaged without " + resource);
      }
      return FORMAT.parse(new InputStreamReader(in, StandardCharsets.UTF_8)).stream()
          .map(Line::new)
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private SeedFile() {}
}
