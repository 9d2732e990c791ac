package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.View;

/** The filed rows of triage, deferrals and their extensions. */
@ApplicationScoped
class DeferralRepository extends RowRepository {
  private static final String OPEN =
      " and not exists (select 1 from Rectification c where c.defectEntryId = r.defectEntryId"
          + " and c.voided is null and c.ledgerSeq <= :known and c.happenedOn <= :upTo"
          + " and not exists (select 1 from Rectification l where l.corrects = c.id"
          + " and l.ledgerSeq <= :known))";

  /** Oldest first: of a defect's, the last counts. */
  List<DefectTriage> triages(Collection<UUID> defectEntryIds, View view) {
    return ofDefects(DefectTriage.class, defectEntryIds, view).stream()
        .filter(row -> !row.isRevoking())
        .toList();
  }

  /** The current rows, one of a defect at most. */
  List<Deferral> deferrals(Collection<UUID> defectEntryIds, View view) {
    return ofDefects(Deferral.class, defectEntryIds, view);
  }

  /** The current rows of extensions of these defects, oldest first. */
  List<DeferralExtended> extensions(Collection<UUID> defectEntryIds, View view) {
    return ofDefects(DeferralExtended.class, defectEntryIds, view).stream()
        .filter(row -> !row.isRevoking())
        .toList();
  }

  /** The current deferrals of defects of these aircraft that nobody has rectified. */
  List<Deferral> open(Collection<UUID> aircraftIds, View view) {
    return entities
        .createQuery(
            "from Deferral r where r.aircraftId in :ids and " + current("Deferral") + OPEN,
            Deferral.class)
        .setParameter("ids", aircraftIds)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .getResultList();
  }

  /** All rows of a defect's deferral, corrected ones too, oldest first. */
  List<Deferral> allOf(UUID defectEntryId, View view) {
    return entities
        .createQuery(
            "from Deferral r where r.defectEntryId = :id and r.ledgerSeq <= :known"
                + " and r.happenedOn <= :upTo order by r.ledgerSeq",
            Deferral.class)
        .setParameter("id", defectEntryId)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .getResultList();
  }

  private <T extends Filed> List<T> ofDefects(Class<T> kind, Collection<UUID> ids, View view) {
    String name = kind.getSimpleName();
    return entities
        .createQuery(
            "from "
                + name
                + " r where r.defectEntryId in :ids and "
                + current(name)
                + " order by r.ledgerSeq",
            kind)
        .setParameter("ids", ids)
        .setParameter("known", view.knownBound())
        .setParameter("upTo", view.upTo())
        .getResultList();
  }

  private static String current(String kind) {
    return "r.ledgerSeq <= :known and r.happenedOn <= :upTo and not exists (select 1 from "
        + kind
        + " n where n.corrects = r.id and n.ledgerSeq <= :known)";
  }
}
