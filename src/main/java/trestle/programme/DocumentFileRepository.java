package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import trestle.web.Viewer;

/** Files in the database; walled, so that no query names the operator. */
@ApplicationScoped
class DocumentFileRepository {
  @Inject EntityManager entities;

  void keep(Viewer viewer, DocumentFiles.Draft file, Instant now) {
    entities
        .createNativeQuery(
            "insert into compliance_file (operator_id, sha256, name, media_type, bytes, added_at,"
                + " added_by) values (:operator, :sha, :name, :type, :bytes, :now, :person)"
                + " on conflict do nothing")
        .setParameter("operator", viewer.operatorId())
        .setParameter("sha", file.sha256())
        .setParameter("name", file.name())
        .setParameter("type", file.mediaType())
        .setParameter("bytes", file.bytes())
        .setParameter("now", now)
        .setParameter("person", viewer.personId())
        .executeUpdate();
  }

  /** What those that are kept were called, by hash. */
  Map<String, String> names(Collection<String> sha256s) {
    Map<String, String> names = new HashMap<>();
    List<Object[]> rows =
        entities
            .createNativeQuery(
                "select sha256, name from compliance_file where sha256 = any(:shas)",
                Object[].class)
            .setParameter("shas", sha256s.toArray(String[]::new))
            .getResultList();
    rows.forEach(row -> names.put((String) row[0], (String) row[1]));
    return names;
  }

  /** How large those are that are kept, by hash. */
  Map<String, Long> sizes(Collection<String> sha256s) {
    Map<String, Long> sizes = new HashMap<>();
    List<Object[]> rows =
        entities
            .createNativeQuery(
                "select sha256, octet_length(bytes) from compliance_file where sha256 = any(:shas)",
                Object[].class)
            .setParameter("shas", sha256s.toArray(String[]::new))
            .getResultList();
    rows.forEach(row -> sizes.put((String) row[0], ((Number) row[1]).longValue()));
    return sizes;
  }

  Optional<DocumentFiles.Draft> file(String sha256) {
    List<?> rows =
        entities
            .createNativeQuery(
                "select name, media_type, bytes from compliance_file where sha256 = :sha",
                Object[].class)
            .setParameter("sha", sha256)
            .getResultList();
    return rows.stream().findFirst().map(row -> file(sha256, (Object[]) row));
  }

  private static DocumentFiles.Draft file(String sha256, Object[] row) {
    return new DocumentFiles.Draft(sha256, (String) row[0], (String) row[1], (byte[]) row[2]);
  }
}
