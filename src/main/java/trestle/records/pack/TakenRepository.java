package trestle.records.pack;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.Session;
import trestle.ledger.Inclusion;
import trestle.ledger.MerkleFrontier;
import trestle.ledger.SignedHead;
import trestle.web.NotHere;

/** Packs that came from elsewhere; walled, so that no query names the operator. */
@ApplicationScoped
class TakenRepository {
  private static final int PIECE = 1 << 20;

  @Inject EntityManager entities;

  /** A line as it came, for its page. */
  record Kept(
      long seq,
      String kind,
      UUID recordId,
      Instant recordedAt,
      String recordedBy,
      String json,
      byte[] leaf,
      byte[] path,
      boolean filed) {

    /** Whether the text is the one that the other operator's head counts. */
    boolean leadsTo(SignedHead head) {
      List<byte[]> hashes = new ArrayList<>();
      for (int at = 0; at < path.length; at += 32) {
        hashes.add(Arrays.copyOfRange(path, at, at + 32));
      }
      byte[] own = MerkleFrontier.leaf(json.getBytes(StandardCharsets.UTF_8));
      try {
        return Arrays.equals(new Inclusion(seq, head.size(), own, hashes).root(), head.root());
      } catch (IllegalArgumentException e) {
        return false;
      }
    }
  }

  /** One line to keep. */
  record Row(PackLines.PackLine line, String recordedBy, boolean filed) {}

  /**
   * What the database says against the rows themselves, if that is why something failed: data
   * exceptions and broken constraints, by PostgreSQL's error codes (its appendix A).
   */
  static Optional<String> contradictionIn(Throwable failure) {
    for (Throwable cause = failure; cause != null; cause = cause.getCause()) {
      if (cause instanceof SQLException sql) {
        String state = String.valueOf(sql.getSQLState());
        if (state.startsWith("22") || state.startsWith("23")) {
          return Optional.of(sql.getMessage());
        }
      }
    }
    return Optional.empty();
  }

  List<TakenPack> packs() {
    return entities
        .createQuery("from TakenPack p order by p.ledgerSeq desc", TakenPack.class)
        .getResultList();
  }

  Optional<TakenPack> pack(UUID id) {
    return Optional.ofNullable(entities.find(TakenPack.class, id));
  }

  List<TakenPack> packsOf(PackSubject subject) {
    return entities
        .createQuery(
            "from TakenPack p where p.aircraftId = :id or p.componentId = :id"
                + " order by p.ledgerSeq desc",
            TakenPack.class)
        .setParameter("id", subject.id())
        .getResultList();
  }

  boolean isTaken(String manifestSha256) {
    return !entities
        .createQuery("select p.id from TakenPack p where p.manifestSha256 = :sha", UUID.class)
        .setParameter("sha", manifestSha256)
        .getResultList()
        .isEmpty();
  }

  /** Which of these records came in some pack. */
  List<UUID> came(Collection<UUID> recordIds) {
    return entities
        .createNativeQuery(
            "select distinct record_id from taken_record where record_id = any(:ids) and filed",
            UUID.class)
        .setParameter("ids", recordIds.toArray(UUID[]::new))
        .getResultList();
  }

  /** The number that an entry has here already. */
  Optional<Long> number(String series, UUID entryId) {
    String table = series.replace('-', '_');
    return entities
        .createNativeQuery(
            "select number from " + table + " where entry_id = :id limit 1", Long.class)
        .setParameter("id", entryId)
        .getResultStream()
        .map(number -> (Long) number)
        .findFirst();
  }

  void keep(UUID operatorId, UUID packId, List<Row> rows) {
    entities
        .unwrap(Session.class)
        .doWork(
            connection -> {
              try (PreparedStatement insert =
                  connection.prepareStatement(
                      "insert into taken_record (operator_id, pack_id, seq, kind, record_id,"
                          + " recorded_at, recorded_by, json, leaf, path, filed)"
                          + " values (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")) {
                for (Row row : rows) {
                  bind(insert, operatorId, packId, row);
                  insert.addBatch();
                }
                insert.executeBatch();
              }
            });
  }

  private static void bind(PreparedStatement insert, UUID operatorId, UUID packId, Row row)
      throws SQLException {
    PackLines.PackLine line = row.line();
    byte[] path = new byte[line.path().size() * 32];
    for (int i = 0; i < line.path().size(); i++) {
      System.arraycopy(line.path().get(i), 0, path, i * 32, 32);
    }
    insert.setObject(1, operatorId);
    insert.setObject(2, packId);
    insert.setLong(3, line.seq());
    insert.setString(4, line.kind());
    insert.setObject(5, line.recordId());
    insert.setObject(6, line.recordedAt().atOffset(ZoneOffset.UTC));
    insert.setString(7, row.recordedBy());
    insert.setString(8, line.text());
    insert.setBytes(9, line.leaf());
    insert.setBytes(10, path);
    insert.setBoolean(11, row.filed());
  }

  List<Kept> lines(UUID packId, String kind, int from, int most) {
    List<Object[]> rows =
        entities
            .createNativeQuery(
                "select seq, kind, record_id, recorded_at, recorded_by, json, leaf, path, filed"
                    + " from taken_record where pack_id = :pack and (:kind = '' or kind = :kind)"
                    + " order by seq limit :most offset :from",
                Object[].class)
            .setParameter("pack", packId)
            .setParameter("kind", kind)
            .setParameter("from", from)
            .setParameter("most", most)
            .getResultList();
    return rows.stream().map(TakenRepository::kept).toList();
  }

  private static Kept kept(Object[] row) {
    return new Kept(
        ((Number) row[0]).longValue(),
        (String) row[1],
        (UUID) row[2],
        (Instant) row[3],
        (String) row[4],
        (String) row[5],
        (byte[]) row[6],
        (byte[]) row[7],
        (Boolean) row[8]);
  }

  /** How many lines of each kind, and how many of those were filed. */
  List<Object[]> kinds(UUID packId) {
    return entities
        .createNativeQuery(
            "select kind, count(*), count(*) filter (where filed) from taken_record"
                + " where pack_id = :pack group by kind order by kind",
            Object[].class)
        .setParameter("pack", packId)
        .getResultList();
  }

  void persist(Object row) {
    entities.persist(row);
  }

  /** What was filed goes to the database, and leaves memory. */
  void flushAndForget() {
    entities.flush();
    entities.clear();
  }

  /** Keeps an upload in pieces, and forgets what others of the operator left for long. */
  void keepUpload(Upload upload, InputStream in) throws IOException {
    entities
        .createNativeQuery("delete from pack_upload where uploaded_at < :old")
        .setParameter("old", upload.at().minusSeconds(86_400))
        .executeUpdate();
    entities
        .createNativeQuery(
            "insert into pack_upload (operator_id, id, uploaded_at, uploaded_by, bytes, sha256)"
                + " values (:operator, :id, :at, :by, :bytes, :sha)")
        .setParameter("operator", upload.operatorId())
        .setParameter("id", upload.id())
        .setParameter("at", upload.at())
        .setParameter("by", upload.by())
        .setParameter("bytes", upload.bytes())
        .setParameter("sha", upload.sha256())
        .executeUpdate();
    int ordinal = 0;
    for (byte[] piece = in.readNBytes(PIECE); piece.length > 0; piece = in.readNBytes(PIECE)) {
      entities
          .createNativeQuery(
              "insert into pack_upload_piece (operator_id, upload_id, ordinal, bytes)"
                  + " values (:operator, :upload, :ordinal, :bytes)")
          .setParameter("operator", upload.operatorId())
          .setParameter("upload", upload.id())
          .setParameter("ordinal", ordinal++)
          .setParameter("bytes", piece)
          .executeUpdate();
    }
  }

  /** A file that was sent and waits for a decision. */
  record Upload(UUID operatorId, UUID id, Instant at, UUID by, long bytes, String sha256) {}

  Upload upload(UUID id) {
    List<Object[]> found =
        entities
            .createNativeQuery(
                "select operator_id, id, uploaded_at, uploaded_by, bytes, sha256 from pack_upload"
                    + " where id = :id",
                Object[].class)
            .setParameter("id", id)
            .getResultList();
    return found.stream()
        .map(
            row ->
                new Upload(
                    (UUID) row[0],
                    (UUID) row[1],
                    (Instant) row[2],
                    (UUID) row[3],
                    ((Number) row[4]).longValue(),
                    (String) row[5]))
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such upload here: send the file again."));
  }

  void writeUpload(UUID id, OutputStream out) throws IOException {
    int ordinal = 0;
    for (byte[] piece = piece(id, ordinal); piece != null; piece = piece(id, ++ordinal)) {
      out.write(piece);
    }
  }

  private byte[] piece(UUID id, int ordinal) {
    List<byte[]> found =
        entities
            .createNativeQuery(
                "select bytes from pack_upload_piece where upload_id = :id and ordinal = :ordinal",
                byte[].class)
            .setParameter("id", id)
            .setParameter("ordinal", ordinal)
            .getResultList();
    return found.isEmpty() ? null : found.get(0);
  }

  /** Locked until the commit: of two who decide on it at once, one finds it gone. */
  boolean removeUpload(UUID id) {
    return entities
            .createNativeQuery("delete from pack_upload where id = :id")
            .setParameter("id", id)
            .executeUpdate()
        > 0;
  }
}
