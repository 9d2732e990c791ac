package trestle.programme;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.LockModeType;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Revocable;
import trestle.ledger.View;

@ApplicationScoped
class ProgrammeRepository implements PanacheRepositoryBase<Programme, UUID> {
  /** A revision as it was issued, with what its latest correction says. */
  private static final String ISSUED =
      "select p.id, coalesce(n.id, p.id), p.programmeId, p.ledgerSeq,"
          + " coalesce(n.number, p.number), p.happenedOn, coalesce(n.approvedBy, p.approvedBy),"
          + " coalesce(n.reference, p.reference), coalesce(n.reason, p.reason),"
          + " coalesce(n.recordedBy, p.recordedBy) from ProgrammeRevision p"
          + " left join ProgrammeRevision n on n.entryId = p.id and n.ledgerSeq <= :known"
          + " and not exists (select 1 from ProgrammeRevision l where l.corrects = n.id"
          + " and l.ledgerSeq <= :known)";

  /** An adoption that stands. */
  record Adoption(
      UUID id,
      UUID aircraftId,
      UUID programmeId,
      LocalDate on,
      Long sequence,
      UUID revision,
      Long revisionSequence) {

    /** Up to which revision the programme was taken up, as its place in the ledger. */
    long under() {
      return revisionSequence == null ? 0 : revisionSequence;
    }
  }

  /** An exclusion, or the end of one. */
  record Exclusion(
      UUID id,
      UUID requirementId,
      UUID aircraftId,
      Boolean ended,
      LocalDate on,
      String reason,
      String approvedBy,
      Long sequence) {}

  /** All rows, oldest first: a programme's own and the corrections of its name. */
  List<Programme> all(View view) {
    return getEntityManager()
        .createQuery(
            "from Programme p where p.happenedOn <= :upTo and p.ledgerSeq <= :known"
                + " order by p.ledgerSeq",
            Programme.class)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** Oldest first: of an aircraft's, the last counts. */
  List<Adoption> adoptions(Collection<UUID> aircraftIds, View view) {
    return getEntityManager()
        .createQuery(
            "select a.id, a.aircraftId, a.programmeId, a.happenedOn, a.ledgerSeq,"
                + " a.programmeRevision, p.ledgerSeq from ProgrammeAdoption a"
                + " left join ProgrammeRevision p on p.id = a.programmeRevision where a.aircraftId in :aircraft"
                + " and a.happenedOn <= :upTo and a.ledgerSeq <= :known and "
                + Revocable.stands("ProgrammeAdoption", "a")
                + " order by a.happenedOn, a.ledgerSeq",
            Adoption.class)
        .setParameter("aircraft", aircraftIds)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** Every aircraft that ever followed some programme. */
  List<UUID> followers() {
    return getEntityManager()
        .createQuery("select distinct a.aircraftId from ProgrammeAdoption a", UUID.class)
        .getResultList();
  }

  /** Oldest first: of a requirement's and aircraft's, the last counts. */
  List<Exclusion> exclusions(Collection<UUID> aircraftIds, View view) {
    return getEntityManager()
        .createQuery(
            "select e.id, e.requirementId, e.aircraftId, e.ended, e.happenedOn, e.reason,"
                + " e.approvedBy, e.ledgerSeq"
                + " from RequirementExclusion e where e.aircraftId in :aircraft"
                + " and e.happenedOn <= :upTo and e.ledgerSeq <= :known and "
                + Revocable.stands("RequirementExclusion", "e")
                + " order by e.ledgerSeq",
            Exclusion.class)
        .setParameter("aircraft", aircraftIds)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** The revisions of some programmes, in the order in which they were issued. */
  List<Issued> revisions(Collection<UUID> programmes, View view) {
    return getEntityManager()
        .createQuery(
            ISSUED
                + " where p.corrects is null and p.programmeId in :programmes and p.ledgerSeq <= :known"
                + " order by p.ledgerSeq",
            Issued.class)
        .setParameter("programmes", programmes)
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** The revisions of all programmes that are in force in a view. */
  List<Issued> revisions(View view) {
    return getEntityManager()
        .createQuery(
            ISSUED
                + " where p.corrects is null and p.happenedOn <= :upTo and p.ledgerSeq <= :known order by p.ledgerSeq",
            Issued.class)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** The revision of a programme that was issued last, or null; of no programme null too. */
  Issued newest(UUID programmeId) {
    if (programmeId == null) {
      return null;
    }
    List<Issued> all = revisions(List.of(programmeId), Records.ALL);
    return all.isEmpty() ? null : all.get(all.size() - 1);
  }

  /** Holds other revisions of the programme back until this transaction ends; null for none. */
  Programme lock(UUID id) {
    return findById(id, LockModeType.PESSIMISTIC_WRITE);
  }

  ProgrammeRevision revisionOfForm(UUID formKey) {
    return formKey == null
        ? null
        : getEntityManager()
            .createQuery("from ProgrammeRevision p where p.formKey = :key", ProgrammeRevision.class)
            .setParameter("key", formKey)
            .getResultStream()
            .findFirst()
            .orElse(null);
  }

  Programme ofForm(UUID formKey) {
    return find("formKey", formKey).firstResult();
  }

  boolean filed(Class<?> kind, UUID formKey) {
    return formKey != null
        && getEntityManager()
                .createQuery(
                    "select count(*) from " + kind.getSimpleName() + " r where r.formKey = :key",
                    Long.class)
                .setParameter("key", formKey)
                .getSingleResult()
            > 0;
  }
}
