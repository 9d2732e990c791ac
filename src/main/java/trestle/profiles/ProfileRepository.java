package trestle.profiles;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.ledger.View;

@ApplicationScoped
class ProfileRepository implements PanacheRepositoryBase<ProfileRevision, UUID> {

  /**
   * The operator's revisions and those of some aircraft, oldest first: of each, the last counts.
   */
  List<ProfileRevision> inForce(Collection<UUID> aircraftIds, View view) {
    return find(
            "(aircraftId is null or aircraftId in ?1) and happenedOn <= ?2 and ledgerSeq <= ?3"
                + " order by ledgerSeq",
            aircraftIds,
            view.upTo(),
            view.knownBound())
        .list();
  }

  /** The revisions of every aircraft that ever had its own, oldest first. */
  List<ProfileRevision> ofAircraft(View view) {
    return find(
            "aircraftId is not null and happenedOn <= ?1 and ledgerSeq <= ?2 order by ledgerSeq",
            view.upTo(),
            view.knownBound())
        .list();
  }

  /** All revisions of the operator's profile, or of one aircraft's, oldest first. */
  List<ProfileRevision> of(UUID aircraftId) {
    return aircraftId == null
        ? find("aircraftId is null order by ledgerSeq").list()
        : find("aircraftId = ?1 order by ledgerSeq", aircraftId).list();
  }

  /** Holds other filings of profiles of this operator back until this transaction ends. */
  void lock(UUID operatorId) {
    getEntityManager()
        .createNativeQuery("select pg_advisory_xact_lock(hashtext(:name))", Object.class)
        .setParameter("name", "rule profiles of " + operatorId)
        .getSingleResult();
  }

  /** What was filed from a form, or null. */
  ProfileRevision ofForm(UUID formKey) {
    return formKey == null ? null : find("formKey", formKey).firstResult();
  }
}
