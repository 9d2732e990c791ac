package trestle.defects;

import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Filed;

/** What the repositories of this room ask of every kind of filed row. */
abstract class RowRepository {
  @Inject EntityManager entities;

  <T extends Filed> Optional<T> row(Class<T> kind, UUID id) {
    return Optional.ofNullable(entities.find(kind, id));
  }

  /** The row that one form has filed already, if it has. */
  <T extends Filed> Optional<T> ofForm(Class<T> kind, UUID formKey) {
    if (formKey == null) {
      return Optional.empty();
    }
    return entities
        .createQuery("from " + kind.getSimpleName() + " r where r.formKey = :key", kind)
        .setParameter("key", formKey)
        .getResultStream()
        .findFirst();
  }

  boolean isCorrected(Class<? extends Filed> kind, UUID id) {
    return entities
            .createQuery(
                "select count(r) from " + kind.getSimpleName() + " r where r.corrects = :id",
                Long.class)
            .setParameter("id", id)
            .getSingleResult()
        > 0;
  }
}
