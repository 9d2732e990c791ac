package trestle.defects;

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

/** Pictures in the database; walled, so that no query names the operator. */
@ApplicationScoped
class PhotoRepository {
  @Inject EntityManager entities;

  String keptFrom(String sourceSha256) {
    List<?> kept =
        entities
            .createNativeQuery(
                "select sha256 from attachment where source_sha256 = :source limit 1", String.class)
            .setParameter("source", sourceSha256)
            .getResultList();
    return kept.isEmpty() ? null : (String) kept.get(0);
  }

  void keep(Viewer viewer, PhotoDraft photo, Instant now) {
    entities
        .createNativeQuery(
            "insert into attachment (operator_id, sha256, source_sha256, media_type, width, height,"
                + " bytes, thumbnail, added_at, added_by) values (:operator, :sha, :source, :type,"
                + " :width, :height, :bytes, :thumbnail, :now, :person) on conflict do nothing")
        .setParameter("operator", viewer.operatorId())
        .setParameter("sha", photo.sha256())
        .setParameter("source", photo.sourceSha256())
        .setParameter("type", photo.picture().mediaType())
        .setParameter("width", photo.picture().width())
        .setParameter("height", photo.picture().height())
        .setParameter("bytes", photo.picture().bytes())
        .setParameter("thumbnail", photo.picture().thumbnail())
        .setParameter("now", now)
        .setParameter("person", viewer.personId())
        .executeUpdate();
  }

  /** How large those are that are kept, by hash. */
  Map<String, Long> sizes(Collection<String> sha256s) {
    Map<String, Long> sizes = new HashMap<>();
    List<Object[]> rows =
        entities
            .createNativeQuery(
                "select sha256, octet_length(bytes) from attachment where sha256 = any(:shas)",
                Object[].class)
            .setParameter("shas", sha256s.toArray(String[]::new))
            .getResultList();
    rows.forEach(row -> sizes.put((String) row[0], ((Number) row[1]).longValue()));
    return sizes;
  }

  Optional<Photos.Kept> photo(String sha256) {
    return kept("bytes", "media_type", sha256);
  }

  Optional<Photos.Kept> thumbnail(String sha256) {
    return kept("thumbnail", "'image/jpeg'", sha256);
  }

  private Optional<Photos.Kept> kept(String column, String type, String sha256) {
    List<?> rows =
        entities
            .createNativeQuery(
                "select " + type + ", " + column + " from attachment where sha256 = :sha",
                Object[].class)
            .setParameter("sha", sha256)
            .getResultList();
    return rows.isEmpty() ? Optional.empty() : Optional.of(kept((Object[]) rows.get(0)));
  }

  private static Photos.Kept kept(Object[] row) {
    return new Photos.Kept((String) row[0], (byte[]) row[1]);
  }
}
