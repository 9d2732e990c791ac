package trestle.programme;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;

@ApplicationScoped
class ComplianceRepository implements PanacheRepositoryBase<Compliance, UUID> {
  private static final String STANDS =
      " and (c.componentId is null and c.aircraftId in :aircraft or c.componentId in :parts)"
          + " and c.happenedOn <= :upTo and c.ledgerSeq <= :known and not c.voided";

  private static final String DOINGS =
      "select c.id, c.requirementId, c.aircraftId, c.componentId, c.kind, c.happenedAt,"
          + " c.happenedOn, c.readings, c.complete, c.countsFrom, c.ledgerSeq"
          + " from Compliance c where not exists (select 1 from Compliance l"
          + " where l.corrects = c.id and l.ledgerSeq <= :known)"
          + STANDS;

  private static final String EXTENSIONS =
      "select c.id, c.requirementId, c.aircraftId, c.componentId, c.happenedAt, c.limitPath,"
          + " c.newDueAt, c.newDueOn, c.approvedBy, c.reference, c.ledgerSeq"
          + " from GrantedExtension c where not exists (select 1 from GrantedExtension l"
          + " where l.corrects = c.id and l.ledgerSeq <= :known)"
          + STANDS
          + " order by c.happenedAt, c.ledgerSeq";

  /** What stands for some aircraft and components, in no particular order. */
  List<Doing> doings(Collection<UUID> aircraft, Collection<UUID> parts, View view) {
    return standing(DOINGS, Doing.class, aircraft, parts, view);
  }

  /** Which requirements have a doing that stands, and is of all of it. */
  Set<UUID> done(Collection<UUID> requirements, View view) {
    return Set.copyOf(
        entities()
            .createQuery(
                "select distinct c.requirementId from Compliance c"
                    + " where c.requirementId in :requirements and c.kind = 'done' and c.complete"
                    + " and not c.voided and c.happenedOn <= :upTo and c.ledgerSeq <= :known"
                    + " and not exists (select 1 from Compliance l"
                    + " where l.corrects = c.id and l.ledgerSeq <= :known)",
                UUID.class)
            .setParameter("requirements", requirements)
            .setParameter("upTo", view.upTo())
            .setParameter("known", view.knownBound())
            .getResultList());
  }

  /** The extensions that stand for some aircraft and components, oldest first. */
  List<ExtensionRow> extensions(Collection<UUID> aircraft, Collection<UUID> parts, View view) {
    return standing(EXTENSIONS, ExtensionRow.class, aircraft, parts, view);
  }

  private <T> List<T> standing(
      String query, Class<T> row, Collection<UUID> aircraft, Collection<UUID> parts, View view) {
    return entities()
        .createQuery(query, row)
        .setParameter("aircraft", aircraft)
        .setParameter("parts", parts)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** Everything filed on some requirements of one subject, corrected rows too, oldest first. */
  List<Compliance> filed(Collection<UUID> requirements, UUID subjectId, View view) {
    return filed("Compliance", Compliance.class, requirements, subjectId, view);
  }

  List<GrantedExtension> filedExtensions(Collection<UUID> requirements, UUID subjectId, View view) {
    return filed("GrantedExtension", GrantedExtension.class, requirements, subjectId, view);
  }

  private <T> List<T> filed(
      String name, Class<T> kind, Collection<UUID> requirements, UUID subjectId, View view) {
    return entities()
        .createQuery(
            "from "
                + name
                + " c where c.requirementId in :requirements"
                + " and coalesce(c.componentId, c.aircraftId) = :subject"
                + " and c.happenedOn <= :upTo and c.ledgerSeq <= :known"
                + " order by c.happenedAt, c.ledgerSeq",
            kind)
        .setParameter("requirements", requirements)
        .setParameter("subject", subjectId)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** The row that corrects another, or null. */
  <T> T correctionOf(Class<T> kind, UUID id) {
    return entities()
        .createQuery("from " + kind.getSimpleName() + " c where c.corrects = :id", kind)
        .setParameter("id", id)
        .getResultStream()
        .findFirst()
        .orElse(null);
  }

  /** The row that a form filed before, or null. */
  <T> T ofForm(Class<T> kind, UUID formKey) {
    return formKey == null
        ? null
        : entities()
            .createQuery("from " + kind.getSimpleName() + " c where c.formKey = :key", kind)
            .setParameter("key", formKey)
            .getResultStream()
            .findFirst()
            .orElse(null);
  }

  <T> T one(Class<T> kind, UUID id) {
    return entities().find(kind, id);
  }

  private EntityManager entities() {
    return getEntityManager();
  }
}
