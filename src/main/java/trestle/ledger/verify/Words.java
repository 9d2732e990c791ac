package trestle.ledger.verify;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import trestle.formats.CanonicalJson;

/** How records disagree, in sentences. */
final class Words {
  private static final int SHOWN = 80;
  private static final int COLUMNS = 3;
  private static final int HASH_SHOWN = 12;

  private Words() {}

  static String lineMissing(long seq) {
    return "Line %d is missing from the ledger.".formatted(seq);
  }

  static String linesPast(long size, long last) {
    return "The ledger's head counts %d lines, but there are lines up to %d.".formatted(size, last);
  }

  static String rowWithoutLine(String table, String id, long seq) {
    return "A row of the table %s (%s) says it is record %d, which the ledger does not have of that kind."
        .formatted(table, id, seq);
  }

  static String rowMissing(long seq, FiledTable table, String id, String elsewhere) {
    String missing =
        "Record %d (%s, %s) is in the ledger, but not in its table %s."
            .formatted(seq, table.kind(), id, table.name());
    return elsewhere == null
        ? missing
        : missing + " A row of the table %s has its number.".formatted(elsewhere);
  }

  static String unknownKind(long seq, String kind) {
    return "Line %d of the ledger is of a kind \"%s\" that this version does not know."
        .formatted(seq, shown(kind));
  }

  static String leafChanged(long seq, FiledTable table) {
    return "Record %d (%s): the hash beside the ledger's line is not that of its text."
        .formatted(seq, table.kind());
  }

  static String lineDiffers(long seq, FiledTable table, String what, String line, String row) {
    return "Record %d (%s): the ledger's line has %s %s, the row says %s."
        .formatted(seq, table.kind(), what, line, row);
  }

  static String subtree(long from, long to) {
    return "Lines %d to %d do not lead to the root that was kept when they were filed."
        .formatted(from, to);
  }

  static String fileMissing(long seq, String kind, String sha256) {
    return "Record %d (%s) names a file (%s…) that is not kept any more."
        .formatted(seq, kind, sha256.substring(0, HASH_SHOWN));
  }

  static String fileChanged(long seq, String kind, String sha256) {
    return "Record %d (%s): the file that it names (%s…) is not the one that was filed: its bytes have another hash."
        .formatted(seq, kind, sha256.substring(0, HASH_SHOWN));
  }

  static String fileChanged(String table, String sha256) {
    return "A file of the table %s that no record names (%s…) has bytes of another hash."
        .formatted(table, sha256.substring(0, HASH_SHOWN));
  }

  static String repeatedDiffers(long seq, String kind, String table, String id) {
    return "Record %d (%s): the row of the table %s that it is about (%s) does not say what it said when this was filed."
        .formatted(seq, kind, table, id);
  }

  static String root() {
    return "The lines lead to another root than the ledger's head has.";
  }

  static String frontier() {
    return "The ledger's head keeps other subtrees than its lines lead to.";
  }

  /**
   * A row beside its line.
   *
   * @param textIsHashed whether the line's text is still the one that was hashed: then the row was
   *     changed, else the line
   */
  static String differs(long seq, FiledTable table, String row, String line, boolean textIsHashed) {
    String who = "Record %d (%s): ".formatted(seq, table.kind());
    JsonNode inRow = CanonicalJson.parse(row);
    JsonNode inLine;
    try {
      inLine = CanonicalJson.parse(line);
    } catch (UncheckedIOException e) {
      return who + "the text of the ledger's line is not JSON any more.";
    }
    String how = String.join("; ", differences(inRow, inLine));
    String which =
        textIsHashed
            ? " The line's text is as it was hashed, so the row was changed."
            : " The line's text is not what was hashed.";
    return who
        + (how.isEmpty() ? "the ledger's line is written in another way than it was filed" : how)
        + "."
        + which;
  }

  private static List<String> differences(JsonNode row, JsonNode line) {
    TreeSet<String> names = new TreeSet<>();
    row.fieldNames().forEachRemaining(names::add);
    line.fieldNames().forEachRemaining(names::add);
    List<String> differences = new ArrayList<>();
    for (String name : names) {
      JsonNode now = row.get(name);
      JsonNode filed = line.get(name);
      if (!java.util.Objects.equals(now, filed)) {
        differences.add(
            "%s is %s in the table, %s in the ledger".formatted(name, value(now), value(filed)));
      }
    }
    return differences.size() <= COLUMNS
        ? differences
        : List.of(
            String.join("; ", differences.subList(0, COLUMNS)),
            "and %d more columns differ".formatted(differences.size() - COLUMNS));
  }

  private static String value(JsonNode value) {
    return value == null ? "empty" : shown(value.toString());
  }

  private static String shown(String text) {
    return text.length() <= SHOWN ? text : text.substring(0, SHOWN) + "…";
  }
}
