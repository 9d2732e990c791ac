package trestle.server.backup;

import java.io.ByteArrayOutputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import trestle.ledger.MerkleFrontier;

/**
 * Lines of one operator's ledger, written here as PostgreSQL's COPY gives them and in their order:
 * recomputes each leaf from its text, and the root from the leaves. Holds one line at a time.
 */
final class LedgerLines extends OutputStream {
  /** Far more than any record has; what goes on beyond is no line of a ledger. */
  private static final int LONGEST_LINE = 64 << 20;

  private final int seqAt;
  private final int jsonAt;
  private final int leafAt;
  private final ByteArrayOutputStream line = new ByteArrayOutputStream();
  private MerkleFrontier edge = MerkleFrontier.EMPTY;
  private String fault;

  LedgerLines(List<String> columns) {
    seqAt = columns.indexOf("seq");
    jsonAt = columns.indexOf("json");
    leafAt = columns.indexOf("leaf");
    if (seqAt < 0 || jsonAt < 0 || leafAt < 0) {
      throw new BackupRefused("Its ledger has no column seq, json or leaf.");
    }
  }

  long size() {
    return edge.size();
  }

  String root() {
    return HexFormat.of().formatHex(edge.root());
  }

  /** The first thing that is wrong, or null. */
  String fault() {
    return fault;
  }

  @Override
  public void write(int b) {
    write(new byte[] {(byte) b}, 0, 1);
  }

  @Override
  public void write(byte[] bytes, int from, int length) {
    int start = from;
    for (int at = from; at < from + length; at++) {
      if (bytes[at] == '\n') {
        line.write(bytes, start, at - start);
        take(line.toByteArray());
        line.reset();
        start = at + 1;
      }
    }
    line.write(bytes, start, from + length - start);
    if (line.size() > LONGEST_LINE) {
      throw new BackupRefused("Its ledger has a line without an end.");
    }
  }

  private void take(byte[] row) {
    if (fault != null) {
      return;
    }
    List<byte[]> fields = fields(row);
    long expected = edge.size() + 1;
    if (fields.size() <= Math.max(seqAt, Math.max(jsonAt, leafAt))) {
      fault = "line %,d is cut short".formatted(expected);
      return;
    }
    String seq = new String(fields.get(seqAt), StandardCharsets.US_ASCII);
    byte[] leaf = MerkleFrontier.leaf(fields.get(jsonAt));
    if (!seq.equals(Long.toString(expected))) {
      fault = "line %,d is missing; %s stands in its place".formatted(expected, seq);
    } else if (!Arrays.equals(leaf, hex(fields.get(leafAt)))) {
      fault = "the text of line %,d is not the one its hash was made from".formatted(expected);
    } else {
      edge = edge.append(leaf);
    }
  }

  private static byte[] hex(byte[] field) {
    String text = new String(field, StandardCharsets.US_ASCII);
    try {
      return text.startsWith("\\x") ? HexFormat.of().parseHex(text.substring(2)) : new byte[0];
    } catch (IllegalArgumentException e) {
      return new byte[0];
    }
  }

  /** As COPY's text format has it: tabs between fields, a backslash before what is special. */
  static List<byte[]> fields(byte[] row) {
    List<byte[]> fields = new ArrayList<>();
    byte[] field = new byte[row.length];
    int length = 0;
    for (int at = 0; at < row.length; at++) {
      byte b = row[at];
      if (b == '\t') {
        fields.add(Arrays.copyOf(field, length));
        length = 0;
      } else if (b == '\\' && at + 1 < row.length) {
        field[length++] = meant(row[++at]);
      } else {
        field[length++] = b;
      }
    }
    fields.add(Arrays.copyOf(field, length));
    return fields;
  }

  private static byte meant(byte escaped) {
    return switch (escaped) {
      case 'b' -> '\b';
      case 'f' -> '\f';
      case 'n' -> '\n';
      case 'r' -> '\r';
      case 't' -> '\t';
      case 'v' -> 0x0b;
      default -> escaped;
    };
  }
}
