package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.time.Instant;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.web.Role;

@ApplicationScoped
class PeopleRepository {
  @Inject EntityManager entities;

  /**
   * For the acts that concern the installation: rows of every operator are seen until the commit.
   */
  void speakForInstallation() {
    entities
        .createNativeQuery("select set_config('trestle.installation', 'on', true)")
        .getSingleResult();
  }

  /**
   * Within an act of the installation that files in one operator: from here on it speaks for it.
   */
  void speakFor(UUID operatorId) {
    entities
        .createNativeQuery("select set_config('trestle.operator', :operator, true)")
        .setParameter("operator", operatorId.toString())
        .getSingleResult();
  }

  void persist(Object row) {
    entities.persist(row);
  }

  /** What a form filed, or null. */
  <T> T ofForm(Class<T> kind, UUID formKey) {
    return formKey == null
        ? null
        : entities
            .createQuery("from " + kind.getSimpleName() + " r where r.formKey = :key", kind)
            .setParameter("key", formKey)
            .getResultStream()
            .findFirst()
            .orElse(null);
  }

  void flush() {
    entities.flush();
  }

  Optional<Person> named(String signInName) {
    return entities
        .createQuery("from Person where signInName = :name", Person.class)
        .setParameter("name", Person.normal(signInName))
        .getResultStream()
        .findFirst();
  }

  Person person(UUID id) {
    return entities.find(Person.class, id);
  }

  boolean anyAdministrator() {
    return asked("select exists (select from administrator)");
  }

  /** Asked at every start and on the sign-in page: plain SQL, which needs no parser to be warm. */
  boolean anyDemo() {
    return asked("select exists (select from operator where demo)");
  }

  boolean anyOperatorBut(String ending) {
    return (Boolean)
        entities
            .createNativeQuery(
                "select exists (select from operator where right(name, length(:ending)) <> :ending)")
            .setParameter("ending", ending)
            .getSingleResult();
  }

  private boolean asked(String question) {
    return (Boolean) entities.createNativeQuery(question).getSingleResult();
  }

  /** One first administrator only, however many ask at once. */
  void lockAdministrators() {
    entities.createNativeQuery("select pg_advisory_xact_lock(727401)").getResultList();
  }

  Operator operator(UUID id) {
    return entities.find(Operator.class, id);
  }

  List<Operator> operators() {
    return entities.createQuery("from Operator order by name", Operator.class).getResultList();
  }

  /** Where a person may work: their newest membership in each operator, if it has roles. */
  List<Operator> operatorsOf(UUID personId) {
    return entities
        .createQuery(
            "from Operator o where exists (select 1 from Membership m where m.operatorId = o.id"
                + " and m.personId = :person and array_length(m.roles) > 0 and not exists (select 1"
                + " from Membership later where later.operatorId = m.operatorId and later.personId"
                + " = m.personId and later.ledgerSeq > m.ledgerSeq)) order by o.name",
            Operator.class)
        .setParameter("person", personId)
        .getResultList();
  }

  /** What a person may do in each operator, as their newest memberships say. */
  Map<UUID, Set<Role>> rolesOf(UUID personId) {
    Map<UUID, Set<Role>> roles = new HashMap<>();
    entities
        .createQuery(
            "from Membership m where m.personId = :person order by m.ledgerSeq", Membership.class)
        .setParameter("person", personId)
        .getResultList()
        .forEach(
            row ->
                roles.put(
                    row.operatorId(),
                    Arrays.stream(row.roles).map(Role::parse).collect(Collectors.toSet())));
    return roles;
  }

  /** The newest membership of everyone ever a member of the operator of this transaction. */
  List<Membership> memberships() {
    return entities
        .createQuery(
            "from Membership m where m.operatorId = :operator"
                + " and not exists (select 1 from Membership later where"
                + " later.operatorId = m.operatorId and later.personId = m.personId"
                + " and later.ledgerSeq > m.ledgerSeq)",
            Membership.class)
        .setParameter("operator", spokenFor())
        .getResultList();
  }

  private UUID spokenFor() {
    return (UUID)
        entities.createNativeQuery("select current_operator()", UUID.class).getSingleResult();
  }

  List<Person> people(List<UUID> ids) {
    return entities
        .createQuery("from Person where id in :ids order by name", Person.class)
        .setParameter("ids", ids)
        .getResultList();
  }

  List<Licence> licences() {
    return entities
        .createQuery(
            "from Licence l where l.withdrawn = false and l.voided is null and not exists (select 1 from Licence later"
                + " where later.corrects = l.id) order by l.number",
            Licence.class)
        .getResultList();
  }

  Session session(UUID id) {
    return entities.find(Session.class, id);
  }

  /** Whether they are signed in anywhere, or were until lately. */
  boolean hasSignedIn(UUID personId) {
    return !entities
        .createQuery("select s.id from Session s where s.personId = :person", UUID.class)
        .setParameter("person", personId)
        .setMaxResults(1)
        .getResultList()
        .isEmpty();
  }

  void remove(Object row) {
    entities.remove(row);
  }

  void forgetExpiredSessions(UUID personId, Instant now) {
    entities
        .createQuery("delete from Session where personId = :person and expiresAt <= :now")
        .setParameter("person", personId)
        .setParameter("now", now)
        .executeUpdate();
  }

  SignInBrake brake(String subject) {
    return entities.find(SignInBrake.class, subject);
  }

  /** Counts a failure exactly, also when many fail at once. */
  SignInBrake lockedBrake(String subject, Instant now) {
    entities
        .createNativeQuery(
            "insert into sign_in_brake (subject, failures, last_failure_at, wait_until)"
                + " values (:subject, 0, :now, :now) on conflict do nothing")
        .setParameter("subject", subject)
        .setParameter("now", now)
        .executeUpdate();
    return entities.find(SignInBrake.class, subject, LockModeType.PESSIMISTIC_WRITE);
  }

  void release(String subject) {
    entities
        .createQuery("delete from SignInBrake where subject = :subject")
        .setParameter("subject", subject)
        .executeUpdate();
  }
}
