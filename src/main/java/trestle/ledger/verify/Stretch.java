package trestle.ledger.verify;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import trestle.ledger.MerkleFrontier;
import trestle.ledger.verify.VerifyRepository.Reader;
import trestle.ledger.verify.VerifyRepository.Rows;

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
  private final StringBuilder json = new StringBuilder(2_000);
  private MerkleFrontier edge = MerkleFrontier.EMPTY;
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
          stretch.append(leaf(lines.text(JSON)));
        }
      }
    }
    stretch.complete();
    return stretch.found();
  }

  /** Lines and rows. */
  static Found rows(Reader reader, List<FiledTable> tables, long after, long upTo) {
    Stretch stretch = new Stretch(after, upTo, reader.subtrees(0, after, upTo));
    List<Kept> opened = new ArrayList<>();
    try (Rows lines = reader.lines(after, upTo)) {
      for (FiledTable table : tables) {
        Kept kept = new Kept(table, reader.rows(table, after, upTo));
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
      opened.forEach(kept -> kept.rows.close());
    }
    return stretch.found();
  }

  /** A filed table, at the row that comes next. */
  private static final class Kept {
    private final FiledTable table;
    private final Rows rows;
    private long seq;

    Kept(FiledTable table, Rows rows) {
      this.table = table;
      this.rows = rows;
      advance();
    }

    void advance() {
      seq = rows.next() ? rows.number(table.columns().size()) : Long.MAX_VALUE;
    }

    String aircraft() {
      return rows.text(table.columns().size() + 1);
    }

    String text(String column) {
      return rows.text(table.index(column));
    }

    boolean isDone() {
      return seq == Long.MAX_VALUE;
    }
  }

  private void line(Rows line) {
    long seq = line.number(0);
    if (!isNext(seq)) {
      return;
    }
    byte[] leaf = line.bytes(LEAF);
    String text = line.text(JSON);
    Kept kept = kinds.get(line.text(KIND));
    if (kept == null) {
      fail(seq, Words.unknownKind(seq, line.text(KIND)));
    } else if (kept.seq < seq) {
      fail(kept.seq, Words.rowWithoutLine(kept.table.name(), kept.text("id"), kept.seq));
    } else if (kept.seq > seq) {
      fail(seq, Words.rowMissing(seq, kept.table, line.text(RECORD), elsewhere(seq)));
    } else {
      compare(seq, line, text, leaf, kept);
      kept.advance();
    }
    append(leaf);
  }

  /** The table in which a row with this sequence lies, if there is one. */
  private String elsewhere(long seq) {
    return kinds.values().stream()
        .filter(kept -> kept.seq == seq)
        .map(kept -> kept.table.name())
        .findFirst()
        .orElse(null);
  }

  private void compare(long seq, Rows line, String text, byte[] leaf, Kept kept) {
    json.setLength(0);
    kept.table.write(json, kept.rows);
    boolean textIsHashed = Arrays.equals(leaf(text), leaf);
    if (!text.contentEquals(json) && !(textIsHashed && FinerTimes.only(kept.table, json, text))) {
      fail(seq, Words.differs(seq, kept.table, json.toString(), text, textIsHashed));
    } else if (!textIsHashed) {
      fail(seq, Words.leafChanged(seq, kept.table));
    } else {
      beside(seq, line, kept);
    }
  }

  /** What the line says beside its JSON. */
  private void beside(long seq, Rows line, Kept kept) {
    same(seq, kept, "kind version", line.text(VERSION), "" + kept.table.version());
    same(seq, kept, "time of recording", line.text(RECORDED_AT), kept.text("recorded_at"));
    same(seq, kept, "person", line.text(RECORDED_BY), kept.text("recorded_by"));
    same(seq, kept, "record", line.text(RECORD), kept.text("id"));
    same(seq, kept, "aircraft", line.text(AIRCRAFT), kept.aircraft());
  }

  private void same(long seq, Kept kept, String what, String line, String row) {
    if (!java.util.Objects.equals(line, row)) {
      fail(seq, Words.lineDiffers(seq, kept.table, what, line, row));
    }
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
            kept ->
                fail(kept.seq, Words.rowWithoutLine(kept.table.name(), kept.text("id"), kept.seq)));
  }

  private void complete() {
    long expected = after + edge.size() + 1;
    if (trouble == null && expected <= upTo) {
      fail(expected, Words.lineMissing(expected));
    }
  }

  private void append(byte[] leaf) {
    edge = edge.append(leaf, this::compareKept);
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
    return new Found(edge, trouble == null ? ofSubtree : trouble);
  }

  private static byte[] leaf(String json) {
    return MerkleFrontier.leaf(json.getBytes(StandardCharsets.UTF_8));
  }
}
