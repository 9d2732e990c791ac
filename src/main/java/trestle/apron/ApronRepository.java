package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Revocable;

@ApplicationScoped
class ApronRepository {
  @Inject EntityManager entities;

  /** The row that one form has filed already, if it has. */
  <T extends Filed> Optional<T> ofForm(Class<T> kind, UUID formKey) {
    return entities
        .createQuery("from " + kind.getSimpleName() + " r where r.formKey = :key", kind)
        .setParameter("key", formKey)
        .getResultStream()
        .findFirst();
  }

  /** The newest row of an aircraft that stands. */
  <T extends Revocable> Optional<T> last(Class<T> kind, UUID aircraftId) {
    return entities
        .createQuery(
            "from "
                + kind.getSimpleName()
                + " r where r.aircraftId = :id and "
                + Revocable.stands(kind.getSimpleName(), "r")
                + " order by r.ledgerSeq desc",
            kind)
        .setParameter("known", Long.MAX_VALUE)
        .setParameter("id", aircraftId)
        .setMaxResults(1)
        .getResultStream()
        .findFirst();
  }

  /** The lists that stand: of each kind and type the newest revision. */
  List<CheckList> checkLists() {
    return entities
        .createQuery(
            "from CheckList c where not exists (select 1 from CheckList r where r.corrects = c.id)"
                + " order by c.kind, c.typeName",
            CheckList.class)
        .getResultList();
  }

  /** Whoever revises lists of one operator waits for one another. */
  void lockCheckLists(UUID operatorId) {
    entities
        .createNativeQuery("select pg_advisory_xact_lock(hashtextextended(:lists, 10))")
        .setParameter("lists", "check-lists of " + operatorId)
        .getResultList();
  }
}
