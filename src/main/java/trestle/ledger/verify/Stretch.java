package trestle.ledger.verify;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import trestle.ledger.MerkleBuilder;
import trestle.ledger.MerkleFrontier;
import trestle.ledger.verify.VerifyRepository.Reader;
import trestle.ledger.verify.VerifyRepository.Rows;
import trestle.ledger.verify.VerifyRepository.Span;

/**
 * A stretch of an operator's ledger: its lines in order beside the rows of all filed tables, each
 * in the same order, so that whatever is missing on either side shows at its place.
 */
final class Stretch {
  private static final int JSON = 1;
  private static final int LEAF = 2;
  private static final int KIND = 3;
  private static final int VERSION = 4;
  private static final int RECORDED_AT = 5;
  private static final int RECORDED_BY = 6;
  private static final int RECORD = 7;
  private static final int AIRCRAFT = 8;

  private final long after;
  private final long upTo;
  private final Map<String, Kept> kinds = new HashMap<>();
  private final Map<String, byte[]> subtrees;
  private final Utf8 json = new Utf8();
  private final MerkleBuilder edge = new MerkleBuilder(this::compareKept);
  private Kept last;
  private Trouble trouble;
  private Trouble ofSubtree;

  /**
   * What was found in a stretch: the roots of its leaves, and the first trouble if there is any.
   */
  record Found(MerkleFrontier edge, Trouble trouble) {}

  private Stretch(long after, long upTo, Map<String, byte[]> subtrees) {
    this.after = after;
    this.upTo = upTo;
    this.subtrees = subtrees;
  }

  /** The text alone: the leaves that it hashes to. */
  static Found texts(Reader reader, long after, long upTo) {
    Stretch stretch = new Stretch(after, upTo, Map.of());
    try (Rows lines = reader.texts(after, upTo)) {
      while (stretch.trouble == null && lines.next()) {
        if (stretch.isNext(lines.number(0))) {
          stretch.edge.append(stretch.edge.leaf(lines.bytes(JSON)));
        }
      }
    }
    stretch.complete();
    return stretch.found();
  }

  /** Lines and rows. */
  static Found rows(Reader reader, Map<FiledTable, Span> spans, long after, long upTo) {
    Stretch stretch = new Stretch(after, upTo, reader.subtrees(0, after, upTo));
    List<Kept> opened = new ArrayList<>();
    try (Rows lines = reader.lines(after, upTo)) {
      for (Map.Entry<FiledTable, Span> one : spans.entrySet()) {
        FiledTable table = one.getKey();
        boolean any = one.getValue().meets(after, upTo);
        Kept kept = new Kept(table, any ? reader.rows(table, after, upTo) : null);
        opened.add(kept);
        stretch.kinds.put(table.kind(), kept);
      }
      while (stretch.trouble == null && lines.next()) {
        stretch.line(lines);
      }
      stretch.complete();
      if (stretch.trouble == null) {
        stretch.rest();
      }
    } finally {
      opened.forEach(Kept::close);
    }
    return stretch.found();
  }

  /** A filed table, at the row that comes next; without rows where none lies in the stretch. */
  private static final class Kept {
    private final FiledTable table;
    private final byte[] kind;
    private final Rows rows;
    private final int recordedAt;
    private final int recordedBy;
    private final int id;
    private long seq;

    Kept(FiledTable table, Rows rows) {
      this.table = table;
      this.rows = rows;
      kind = table.kind().getBytes(StandardCharsets.US_ASCII);
      recordedAt = table.index("recorded_at");
      recordedBy = table.index("recorded_by");
      id = table.index("id");
      advance();
    }

    void advance() {
      seq = rows != null && rows.next() ? rows.number(table.columns().size()) : Long.MAX_VALUE;
    }

    byte[] aircraft() {
      return rows.bytes(table.columns().size() + 1);
    }

    String id() {
      return rows.text(id);
    }

    boolean isDone() {
      return seq == Long.MAX_VALUE;
    }

    void close() {
      if (rows != null) {
        rows.close();
      }
    }
  }

  private void line(Rows line) {
    long seq = line.number(0);
    if (!isNext(seq)) {
      return;
    }
    byte[] leaf = line.bytes(LEAF);
    Kept kept = kept(line);
    if (kept == null) {
      fail(seq, Words.unknownKind(seq, line.text(KIND)));
    } else if (kept.seq < seq) {
      fail(kept.seq, Words.rowWithoutLine(kept.table.name(), kept.id(), kept.seq));
    } else if (kept.seq > seq) {
      fail(seq, Words.rowMissing(seq, kept.table, line.text(RECORD), elsewhere(seq)));
    } else {
      compare(seq, line, leaf, kept);
      kept.advance();
    }
    edge.append(leaf);
  }

  /** The table of the line's kind, most often that of the line before; null for none. */
  private Kept kept(Rows line) {
    if (last == null || !Arrays.equals(last.kind, line.bytes(KIND))) {
      last = kinds.get(line.text(KIND));
    }
    return last;
  }

  /** The table in which a row with this sequence lies, if there is one. */
  private String elsewhere(long seq) {
    return kinds.values().stream()
        .filter(kept -> kept.seq == seq)
        .map(kept -> kept.table.name())
        .findFirst()
        .orElse(null);
  }

  private void compare(long seq, Rows line, byte[] leaf, Kept kept) {
    long version = line.number(VERSION);
    if (version < 1 || version > kept.table.version()) {
      fail(
          seq,
          Words.lineDiffers(
              seq, kept.table, "kind version", "" + version, "" + kept.table.version()));
      return;
    }
    json.clear();
    kept.table.write(json, kept.rows, version);
    byte[] text = line.bytes(JSON);
    boolean textIsHashed = Arrays.equals(edge.leaf(text), leaf);
    if (!json.isEqual(text) && !(textIsHashed && isFiner(kept, line))) {
      fail(seq, Words.differs(seq, kept.table, json.toString(), line.text(JSON), textIsHashed));
    } else if (!textIsHashed) {
      fail(seq, Words.leafChanged(seq, kept.table));
    } else {
      beside(seq, line, kept);
    }
  }

  private boolean isFiner(Kept kept, Rows line) {
    return FinerTimes.only(kept.table, json.toString(), line.text(JSON));
  }

  /** What the line says beside its JSON. */
  private void beside(long seq, Rows line, Kept kept) {
    same(seq, kept, "time of recording", line.bytes(RECORDED_AT), kept.rows.bytes(kept.recordedAt));
    same(seq, kept, "person", line.bytes(RECORDED_BY), kept.rows.bytes(kept.recordedBy));
    same(seq, kept, "record", line.bytes(RECORD), kept.rows.bytes(kept.id));
    same(seq, kept, "aircraft", line.bytes(AIRCRAFT), kept.aircraft());
  }

  private void same(long seq, Kept kept, String what, byte[] line, byte[] row) {
    if (!Arrays.equals(line, row)) {
      fail(seq, Words.lineDiffers(seq, kept.table, what, text(line), text(row)));
    }
  }

  private static String text(byte[] bytes) {
    return bytes == null ? null : new String(bytes, StandardCharsets.UTF_8);
  }

  /** False where a line is missing before this one. */
  private boolean isNext(long seq) {
    long expected = after + edge.size() + 1;
    if (seq != expected) {
      fail(expected, Words.lineMissing(expected));
    }
    return seq == expected;
  }

  /** Rows that are left over when the lines have come to their end. */
  private void rest() {
    kinds.values().stream()
        .filter(kept -> !kept.isDone())
        .min(java.util.Comparator.comparingLong(kept -> kept.seq))
        .ifPresent(
            kept -> fail(kept.seq, Words.rowWithoutLine(kept.table.name(), kept.id(), kept.seq)));
  }

  private void complete() {
    long expected = after + edge.size() + 1;
    if (trouble == null && expected <= upTo) {
      fail(expected, Words.lineMissing(expected));
    }
  }

  private void compareKept(int level, long place, byte[] root) {
    byte[] kept = subtrees.get(level + " " + ((after >> level) + place));
    if (kept != null && ofSubtree == null && !Arrays.equals(kept, root)) {
      long from = after + (place << level) + 1;
      ofSubtree = new Trouble(from, Words.subtree(from, after + (place + 1 << level)));
    }
  }

  private void fail(long seq, String sentence) {
    if (trouble == null) {
      trouble = new Trouble(seq, sentence);
    }
  }

  private Found found() {
    return new Found(edge.frontier(), trouble == null ? ofSubtree : trouble);
  }
}
