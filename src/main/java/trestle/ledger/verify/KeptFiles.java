package trestle.ledger.verify;

import java.lang.reflect.Field;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.TreeSet;
import trestle.ledger.Filed;
import trestle.ledger.FiledJson;
import trestle.ledger.Kind;
import trestle.ledger.NamesFiles;
import trestle.ledger.verify.VerifyRepository.Reader;
import trestle.ledger.verify.VerifyRepository.Rows;

/**
 * The photographs and papers that records name by the hash of their bytes: whether each is kept,
 * and has that hash. A piece of one at a time.
 */
final class KeptFiles {
  private KeptFiles() {}

  /**
   * A column of a filed table that names files.
   *
   * @param files the table that they are kept in
   * @param isList whether one row names several
   */
  record Naming(String kind, String table, String column, String files, boolean isList) {

    /** SQL of sequence and hash where the file is not there, the first row first. */
    String missing() {
      return "select n.ledger_seq, n.sha256 from (select ledger_seq, %s as sha256 from %s where operator_id = ?) n where n.sha256 is not null and not exists (select 1 from %s f where f.operator_id = ? and f.sha256 = n.sha256) order by 1"
          .formatted(isList ? "unnest(" + column + ")" : column, table, files);
    }

    /** SQL of the sequence of the first row that names a file. */
    String namedBy() {
      return "select ledger_seq from %s where operator_id = ? and %s order by 1 limit 1"
          .formatted(table, (isList ? "? = any(%s)" : "? = %s").formatted(column));
    }

    /** All such columns of a kind. */
    static List<Naming> of(Class<? extends Filed> type) {
      List<Naming> all = new ArrayList<>();
      for (Field field : FiledJson.fields(type)) {
        NamesFiles names = field.getAnnotation(NamesFiles.class);
        if (names != null) {
          all.add(
              new Naming(
                  type.getAnnotation(Kind.class).value(),
                  FiledJson.table(type),
                  FiledJson.column(field),
                  names.table(),
                  field.getType().isArray()));
        }
      }
      return all;
    }
  }

  /** The first trouble, or null. */
  static Trouble trouble(Reader reader, List<Naming> namings) {
    for (Naming naming : namings) {
      try (Rows missing = reader.withoutFile(naming)) {
        if (missing.next()) {
          long seq = missing.number(0);
          return new Trouble(seq, Words.fileMissing(seq, naming.kind(), missing.text(1)));
        }
      }
    }
    for (String table : new TreeSet<>(namings.stream().map(Naming::files).toList())) {
      Trouble changed = changed(reader, table, namings);
      if (changed != null) {
        return changed;
      }
    }
    return null;
  }

  private static Trouble changed(Reader reader, String table, List<Naming> namings) {
    try (Rows files = reader.files(table)) {
      while (files.next()) {
        String sha256 = files.text(0);
        if (!sha256.equals(hash(reader, table, sha256))) {
          return named(reader, table, sha256, namings);
        }
      }
    }
    return null;
  }

  private static String hash(Reader reader, String table, String sha256) {
    MessageDigest digest = digest();
    byte[] piece = reader.piece(table, sha256, 0);
    for (int i = 1; piece.length > 0; i++) {
      digest.update(piece);
      piece = reader.piece(table, sha256, i);
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  /** Says which record it belongs to: the first that names it. */
  private static Trouble named(Reader reader, String table, String sha256, List<Naming> namings) {
    for (Naming naming : namings) {
      if (naming.files().equals(table)) {
        try (Rows row = reader.naming(naming, sha256)) {
          if (row.next()) {
            long seq = row.number(0);
            return new Trouble(seq, Words.fileChanged(seq, naming.kind(), sha256));
          }
        }
      }
    }
    return new Trouble(0, Words.fileChanged(table, sha256));
  }

  private static MessageDigest digest() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java has SHA-256", e);
    }
  }
}
