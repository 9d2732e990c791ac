package trestle.directives;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.TypedQuery;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Revocable;
import trestle.ledger.View;
import trestle.web.Viewer;

@ApplicationScoped
class DirectiveRepository {
  @Inject EntityManager entities;

  /** A row never changes, so what was read of it once serves for ever. */
  private final Cache<UUID, ParagraphSheet> read =
      Caffeine.newBuilder().maximumSize(50_000).build();

  /** The newest row of each directive, superseded and withdrawn ones too, by number. */
  List<DirectiveSheet> directives(View view) {
    return inView(
            "from Directive d where "
                + newest("Directive", "n.directiveId = d.directiveId")
                + " order by d.number, d.issuer, d.directiveId",
            Directive.class,
            view)
        .getResultStream()
        .map(Directive::sheet)
        .toList();
  }

  /** Every row of one directive, oldest first. */
  List<DirectiveSheet> history(UUID directiveId) {
    return entities
        .createQuery(
            "from Directive d where d.directiveId = :id order by d.ledgerSeq", Directive.class)
        .setParameter("id", directiveId)
        .getResultStream()
        .map(Directive::sheet)
        .toList();
  }

  /** The newest row of each paragraph that is not withdrawn, of all directives. */
  List<ParagraphSheet> paragraphs(View view) {
    return sheets(
        inView(
            "from DirectiveParagraph d where d.withdrawn = false and "
                + newest("DirectiveParagraph", "n.paragraphId = d.paragraphId")
                + " order by d.label, d.paragraphId",
            DirectiveParagraph.class,
            view));
  }

  /** The newest row of each paragraph of one directive, withdrawn ones too. */
  List<ParagraphSheet> paragraphsOf(UUID directiveId) {
    return sheets(
        inView(
                "from DirectiveParagraph d where d.directiveId = :id and "
                    + newest("DirectiveParagraph", "n.paragraphId = d.paragraphId")
                    + " order by d.label, d.paragraphId",
                DirectiveParagraph.class,
                View.EVERYTHING)
            .setParameter("id", directiveId));
  }

  Optional<ParagraphSheet> paragraph(UUID paragraphId) {
    return sheets(
            inView(
                    "from DirectiveParagraph d where d.paragraphId = :id and "
                        + newest("DirectiveParagraph", "n.paragraphId = d.paragraphId"),
                    DirectiveParagraph.class,
                    View.EVERYTHING)
                .setParameter("id", paragraphId))
        .stream()
        .findFirst();
  }

  private List<ParagraphSheet> sheets(TypedQuery<DirectiveParagraph> query) {
    return query.getResultStream().map(row -> read.get(row.id(), id -> row.sheet())).toList();
  }

  /** All that was judged of these aircraft, and of these components, oldest first. */
  List<AssessmentSheet> assessments(
      Collection<UUID> aircraftIds, Collection<UUID> componentIds, View view) {
    return assessments(
        inView(
                "from DirectiveAssessment d where (d.componentId is null and d.aircraftId in"
                    + " :aircraft or d.componentId in :parts) and "
                    + Revocable.stands("DirectiveAssessment", "d")
                    + " and "
                    + IN_VIEW,
                DirectiveAssessment.class,
                view)
            .setParameter("aircraft", aircraftIds)
            .setParameter("parts", componentIds));
  }

  /** All that was judged of these paragraphs, oldest first. */
  List<AssessmentSheet> ofParagraphs(Collection<UUID> paragraphIds, View view) {
    return assessments(
        inView(
                "from DirectiveAssessment d where d.paragraphId in :ids and "
                    + Revocable.stands("DirectiveAssessment", "d")
                    + " and "
                    + IN_VIEW,
                DirectiveAssessment.class,
                view)
            .setParameter("ids", paragraphIds));
  }

  /** The requirement that a paragraph was last given for an aircraft or part, ever; or null. */
  UUID requirement(UUID paragraphId, UUID subjectId) {
    return entities
        .createQuery(
            "select d.requirementId from DirectiveAssessment d where d.paragraphId = :paragraph"
                + " and coalesce(d.componentId, d.aircraftId) = :subject"
                + " and d.requirementId is not null order by d.ledgerSeq desc",
            UUID.class)
        .setParameter("paragraph", paragraphId)
        .setParameter("subject", subjectId)
        .setMaxResults(1)
        .getResultStream()
        .findFirst()
        .orElse(null);
  }

  /** The parts for which any of these paragraphs was ever judged. */
  List<UUID> judgedParts(Collection<UUID> paragraphIds, View view) {
    return entities
        .createQuery(
            "select distinct d.componentId from DirectiveAssessment d where d.paragraphId in :ids"
                + " and d.componentId is not null and d.ledgerSeq <= :known"
                + " and d.happenedOn <= :upTo",
            UUID.class)
        .setParameter("ids", paragraphIds)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound())
        .getResultList();
  }

  /** What was judged where these requirements were opened, also if taken away; oldest first. */
  List<AssessmentSheet> opening(Collection<UUID> requirementIds, View view) {
    return assessments(
        inView(
                "from DirectiveAssessment d where d.requirementId in :ids and " + IN_VIEW,
                DirectiveAssessment.class,
                view)
            .setParameter("ids", requirementIds));
  }

  private static List<AssessmentSheet> assessments(TypedQuery<DirectiveAssessment> query) {
    return query.getResultStream().map(DirectiveAssessment::sheet).toList();
  }

  List<AlternativeMethod> methods(Collection<UUID> directiveIds, View view) {
    return inView(
            "from AlternativeMethod d where d.directiveId in :ids and "
                + Revocable.stands("AlternativeMethod", "d")
                + " and "
                + IN_VIEW,
            AlternativeMethod.class,
            view)
        .setParameter("ids", directiveIds)
        .getResultList();
  }

  /** Every search, the newest first. */
  List<DirectiveSearch> searches(int most) {
    return entities
        .createQuery(
            "from DirectiveSearch s where "
                + Revocable.stands("DirectiveSearch", "s")
                + " order by s.ledgerSeq desc",
            DirectiveSearch.class)
        .setParameter("known", Long.MAX_VALUE)
        .setMaxResults(most)
        .getResultList();
  }

  /** The newest search of each source, by source. */
  List<DirectiveSearch> newestSearches() {
    return entities
        .createQuery(
            "from DirectiveSearch s where "
                + Revocable.stands("DirectiveSearch", "s")
                + " and not exists (select 1 from DirectiveSearch n"
                + " where lower(n.source) = lower(s.source) and n.ledgerSeq > s.ledgerSeq and "
                + Revocable.stands("DirectiveSearch", "n")
                + ") order by s.source",
            DirectiveSearch.class)
        .setParameter("known", Long.MAX_VALUE)
        .getResultList();
  }

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

  /** Until the commit no other transaction enters, revises or judges the same thing. */
  void lock(Object what) {
    entities
        .createNativeQuery("select pg_advisory_xact_lock(hashtextextended(:what, 0))", Object.class)
        .setParameter("what", "directives " + what)
        .getResultList();
  }

  void keep(Viewer viewer, DirectiveFiles.Draft file, Instant now) {
    entities
        .createNativeQuery(
            "insert into directive_file (operator_id, sha256, name, bytes, added_at, added_by)"
                + " values (:operator, :sha, :name, :bytes, :now, :person) on conflict do nothing")
        .setParameter("operator", viewer.operatorId())
        .setParameter("sha", file.sha256())
        .setParameter("name", file.name())
        .setParameter("bytes", file.bytes())
        .setParameter("now", now)
        .setParameter("person", viewer.personId())
        .executeUpdate();
  }

  /** How large those files are that are kept, by hash. */
  Map<String, Long> fileSizes(Collection<String> sha256s) {
    Map<String, Long> sizes = new HashMap<>();
    List<Object[]> rows =
        entities
            .createNativeQuery(
                "select sha256, octet_length(bytes) from directive_file"
                    + " where sha256 = any(:shas)",
                Object[].class)
            .setParameter("shas", sha256s.toArray(String[]::new))
            .getResultList();
    rows.forEach(row -> sizes.put((String) row[0], ((Number) row[1]).longValue()));
    return sizes;
  }

  Optional<DirectiveFiles.Draft> file(String sha256) {
    List<Object[]> rows =
        entities
            .createNativeQuery(
                "select name, bytes from directive_file where sha256 = :sha", Object[].class)
            .setParameter("sha", sha256)
            .getResultList();
    return rows.stream()
        .findFirst()
        .map(row -> new DirectiveFiles.Draft(sha256, (String) row[0], (byte[]) row[1]));
  }

  private static final String IN_VIEW =
      "d.ledgerSeq <= :known and d.happenedOn <= :upTo order by d.ledgerSeq";

  private static String newest(String entity, String same) {
    return "d.happenedOn <= :upTo and d.ledgerSeq <= :known and not exists (select 1 from "
        + entity
        + " n where "
        + same
        + " and n.ledgerSeq > d.ledgerSeq and n.ledgerSeq <= :known and n.happenedOn <= :upTo)";
  }

  private <T> TypedQuery<T> inView(String hql, Class<T> type, View view) {
    return entities
        .createQuery(hql, type)
        .setParameter("upTo", view.upTo())
        .setParameter("known", view.knownBound());
  }
}
