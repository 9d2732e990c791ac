package trestle.programme;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.LockModeType;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.ledger.View;
import trestle.reckoning.Rule;
import trestle.reckoning.RuleWords;
import trestle.standing.Force;

@ApplicationScoped
class RequirementRepository implements PanacheRepositoryBase<Requirement, UUID> {

  /** A requirement and one of its revisions. */
  record Revised(RequirementSheet requirement, Revision revision) {}

  /** A revision never changes, so what was read of its rule once serves for ever. */
  private record Read(Rule rule, String words) {}

  private final Cache<UUID, Read> rules = Caffeine.newBuilder().maximumSize(200_000).build();

  private static final String COLUMNS =
      "select r.id as requirementId, r.programmeId as programmeId, r.aircraftId as aircraftId,"
          + " r.componentId as componentId, r.partNumber as partNumber, r.subject as subject, v.id as id,"
          + " v.ledgerSeq as sequence, v.revises as revises, v.title as title, v.kind as kind,"
          + " v.rule as rule, v.effectiveOn as effectiveOn, v.force as force,"
          + " v.forbids as forbids, v.covers as covers,"
          + " v.toleranceCondition as toleranceCondition, v.toleranceSource as toleranceSource,"
          + " v.sourceReference as sourceReference, v.labourMinutes as labourMinutes,"
          + " v.downtimeHours as downtimeHours, v.modification as modification,"
          + " v.modificationPresent as modificationPresent, v.happenedOn as inForceFrom,"
          + " v.approvedBy as approvedBy, v.reason as reason, v.withdrawn as withdrawn,"
          + " v.recordedBy as recordedBy, v.recordedAt as recordedAt, p.ledgerSeq as under"
          + " from Requirement r join RequirementRevision v on v.requirementId = r.id"
          + " left join ProgrammeRevision p on p.id = v.programmeRevision"
          + " where v.ledgerSeq <= :known";

  record Row(
      UUID requirementId,
      UUID programmeId,
      UUID aircraftId,
      UUID componentId,
      String partNumber,
      String subject,
      UUID id,
      Long sequence,
      UUID revises,
      String title,
      String kind,
      String rule,
      LocalDate effectiveOn,
      String force,
      String forbids,
      UUID[] covers,
      String toleranceCondition,
      String toleranceSource,
      String sourceReference,
      Integer labourMinutes,
      Integer downtimeHours,
      String modification,
      Boolean modificationPresent,
      LocalDate inForceFrom,
      String approvedBy,
      String reason,
      Boolean withdrawn,
      UUID recordedBy,
      Instant recordedAt,
      Long under) {}

  /**
   * All known revisions of the requirements of some programmes, aircraft, components and part
   * numbers.
   *
   * @param numbers in small letters
   */
  List<Revised> revisions(
      Collection<UUID> programmes,
      Collection<UUID> aircraft,
      Collection<UUID> parts,
      Collection<String> numbers,
      View view) {
    return getEntityManager()
        .createQuery(
            COLUMNS
                + " and (r.programmeId in :programmes or r.aircraftId in :aircraft"
                + " or r.componentId in :parts or lower(r.partNumber) in :numbers)",
            Row.class)
        .setParameter("programmes", programmes)
        .setParameter("aircraft", aircraft)
        .setParameter("parts", parts)
        .setParameter("numbers", numbers)
        .setParameter("known", view.knownBound())
        .getResultStream()
        .map(this::revised)
        .toList();
  }

  /** All known revisions of the named requirements, oldest first. */
  List<Revised> revisions(Collection<UUID> requirements, View view) {
    return getEntityManager()
        .createQuery(COLUMNS + " and r.id in :requirements order by v.ledgerSeq", Row.class)
        .setParameter("requirements", requirements)
        .setParameter("known", view.knownBound())
        .getResultStream()
        .map(this::revised)
        .toList();
  }

  /** The latest revision of every requirement, known now. */
  List<Revised> latestOfAll() {
    return getEntityManager()
        .createQuery(
            COLUMNS
                + " and not exists (select 1 from RequirementRevision l where l.revises = v.id)",
            Row.class)
        .setParameter("known", Long.MAX_VALUE)
        .getResultStream()
        .map(this::revised)
        .toList();
  }

  List<RequirementSheet> scopes(RequirementRecords.Scope asked) {
    return getEntityManager()
        .createQuery(
            "select r.id, r.programmeId, r.aircraftId, r.componentId, r.partNumber, r.subject"
                + " from Requirement r where r.programmeId in :programmes"
                + " or r.aircraftId in :aircraft or r.componentId in :components"
                + " or lower(r.partNumber) in :numbers or r.id in :requirements",
            RequirementSheet.class)
        .setParameter("programmes", asked.programmes())
        .setParameter("aircraft", asked.aircraft())
        .setParameter("components", asked.components())
        .setParameter(
            "numbers",
            asked.partNumbers().stream().map(n -> n.toLowerCase(java.util.Locale.ROOT)).toList())
        .setParameter("requirements", asked.requirements())
        .getResultList();
  }

  RequirementRevision latest(UUID requirement) {
    return getEntityManager()
        .createQuery(
            "from RequirementRevision v where v.requirementId = :requirement"
                + " order by v.ledgerSeq desc",
            RequirementRevision.class)
        .setParameter("requirement", requirement)
        .setMaxResults(1)
        .getSingleResult();
  }

  /** All known revisions of every requirement of which some revision covers another. */
  Coverings coverings(View view) {
    return new Coverings(
        getEntityManager()
            .createQuery(
                "select v.requirementId, v.title, v.happenedOn, v.ledgerSeq, v.covers, v.withdrawn,"
                    + " coalesce(p.ledgerSeq, 0) from RequirementRevision v"
                    + " left join ProgrammeRevision p on p.id = v.programmeRevision where v.ledgerSeq <= :known"
                    + " and exists (select 1 from RequirementRevision c"
                    + " where c.requirementId = v.requirementId and array_length(c.covers) > 0"
                    + " and c.ledgerSeq <= :known)",
                Coverings.Cover.class)
            .setParameter("known", view.knownBound())
            .getResultList());
  }

  /** Holds other revisions of the requirement back until this transaction ends. */
  Requirement lock(UUID id) {
    return findById(id, LockModeType.PESSIMISTIC_WRITE);
  }

  /** Holds other changes of what covers what back until this transaction ends. */
  void lockCoverings(UUID operatorId) {
    getEntityManager()
        .createNativeQuery("select pg_advisory_xact_lock(hashtext(:name))", Object.class)
        .setParameter("name", "coverings of " + operatorId)
        .getSingleResult();
  }

  boolean filedForm(UUID formKey) {
    return formKey != null && !requirementsOfForm(formKey).isEmpty();
  }

  List<UUID> requirementsOfForm(UUID formKey) {
    return getEntityManager()
        .createQuery(
            "select v.requirementId from RequirementRevision v where v.formKey = :key", UUID.class)
        .setParameter("key", formKey)
        .getResultList();
  }

  private Revised revised(Row row) {
    Read read = rules.get(row.id(), unused -> read(row.rule()));
    Terms terms =
        new Terms(
            row.title(),
            RequirementKind.parse(row.kind()),
            read.rule(),
            row.effectiveOn(),
            Force.parse(row.force()),
            row.forbids(),
            List.of(row.covers()),
            row.toleranceCondition(),
            row.toleranceSource(),
            row.sourceReference(),
            row.labourMinutes(),
            row.downtimeHours(),
            row.modification() == null
                ? Presence.ANYWHERE
                : new Presence(row.modification(), row.modificationPresent()));
    return new Revised(
        new RequirementSheet(
            row.requirementId(),
            row.programmeId(),
            row.aircraftId(),
            row.componentId(),
            row.partNumber(),
            row.subject()),
        new Revision(
            row.id(),
            row.requirementId(),
            row.sequence(),
            row.revises(),
            terms,
            read.words(),
            row.under() == null ? 0 : row.under(),
            row.inForceFrom(),
            row.approvedBy(),
            row.reason(),
            row.withdrawn(),
            row.recordedBy(),
            row.recordedAt()));
  }

  private static Read read(String text) {
    Rule rule = RuleJson.parse(text);
    return new Read(rule, RuleWords.every(rule));
  }
}
