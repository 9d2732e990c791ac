package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** The members of the viewer's operator, what each may do, and the licences they sign under. */
@ApplicationScoped
public class Members {
  /** For so long a page that never arrived may be asked for again. */
  private static final Duration LOST_ANSWER = Duration.ofHours(1);

  @Inject PeopleRepository people;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** A member, or with no roles a former one. */
  public record Member(
      UUID personId, String name, String signInName, Set<Role> roles, List<LicenceLine> licences) {}

  /** A licence as pages show it. */
  public record LicenceLine(
      UUID id,
      UUID personId,
      String number,
      String kind,
      String ratings,
      String authorisation,
      LocalDate expiresOn) {

    public boolean expiredOn(LocalDate day) {
      return expiresOn != null && expiresOn.isBefore(day);
    }

    boolean says(NewLicence wanted) {
      return wanted.equals(new NewLicence(number, kind, ratings, authorisation, expiresOn));
    }
  }

  /** A licence to file. */
  public record NewLicence(
      String number, String kind, String ratings, String authorisation, LocalDate expiresOn) {}

  /** What a member newly taken in signs in with; password null: they had one already. */
  public record Welcome(UUID personId, String signInName, String password) {}

  /** The names of the members, by person. */
  @Reading
  public Map<UUID, String> names(Viewer viewer) {
    Map<UUID, String> names = new HashMap<>();
    all(viewer).forEach(member -> names.put(member.personId(), member.name()));
    return names;
  }

  @Reading
  public List<Member> all(Viewer viewer) {
    List<Membership> memberships = people.memberships();
    Map<UUID, Set<Role>> roles = new HashMap<>();
    memberships.forEach(m -> roles.put(m.personId, rolesOf(m)));
    List<LicenceLine> licences = people.licences().stream().map(Members::line).toList();
    return people.people(List.copyOf(roles.keySet())).stream()
        .map(person -> member(person, roles.get(person.id), licences))
        .toList();
  }

  @Reading
  public Member one(Viewer viewer, UUID personId) {
    return all(viewer).stream()
        .filter(member -> member.personId().equals(personId))
        .findFirst()
        .orElseThrow(() -> new NotHere("No such member."));
  }

  /** The licences of one person that have not expired by a day. */
  @Reading
  public List<LicenceLine> licencesOf(Viewer viewer, UUID personId, LocalDate day) {
    return people.licences().stream()
        .filter(licence -> licence.personId.equals(personId))
        .map(Members::line)
        .filter(licence -> !licence.expiredOn(day))
        .toList();
  }

  @Filing
  public Welcome takeIn(Viewer viewer, String name, String signInName, Set<Role> roles) {
    return takeIn(viewer, name, signInName, roles, null);
  }

  /**
   * Takes someone in: a new person gets a password made here, shown once.
   *
   * @param formKey of the form, or null: sent again it takes nobody in, whatever they do by then;
   *     it makes another password while the person has none but the first, whose page may have been
   *     lost
   */
  @Filing
  public Welcome takeIn(
      Viewer viewer, String name, String signInName, Set<Role> roles, UUID formKey) {
    if (roles.isEmpty()) {
      throw new Refusal("roles", "Roles must name at least one.");
    }
    Membership before = people.ofForm(Membership.class, formKey);
    if (before != null) {
      return again(before, people.person(before.personId));
    }
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    Person known = people.named(signInName).orElse(null);
    String password = known == null ? Passwords.made() : null;
    Person person =
        known == null ? new Person(name, signInName, Passwords.hash(password), now) : known;
    if (known == null) {
      people.persist(person);
      people.flush();
    }
    if (!hasExactly(person.id, roles)) {
      file(viewer, new Membership(person.id, roles), null, formKey, now);
    }
    return new Welcome(person.id, person.signInName, password);
  }

  /** Only the form that made the person may show a password: one moment for both tells it. */
  private Welcome again(Membership before, Person person) {
    boolean waits =
        person.createdAt.equals(before.recordedAt())
            && person.createdAt.isAfter(clock.instant().minus(LOST_ANSWER))
            && person.generation == 0
            && !people.hasSignedIn(person.id);
    String password = waits ? Passwords.made() : null;
    if (waits) {
      person.passwordHash = Passwords.hash(password);
    }
    return new Welcome(person.id, person.signInName, password);
  }

  @Filing
  public void setRoles(Viewer viewer, UUID personId, Set<Role> roles, String reason) {
    setRoles(viewer, personId, roles, reason, null);
  }

  /** Changes what a member may do; no roles ends the membership, at once. */
  @Filing
  public void setRoles(Viewer viewer, UUID personId, Set<Role> roles, String reason, UUID formKey) {
    if (people.ofForm(Membership.class, formKey) != null) {
      return;
    }
    Member member = one(viewer, personId);
    if (member.roles().contains(Role.OWNER) && !roles.contains(Role.OWNER) && lastOwner(personId)) {
      throw new Refusal("roles", "An operator needs an owner. Make somebody else an owner first.");
    }
    if (!member.roles().equals(roles)) {
      file(viewer, new Membership(personId, roles), reason, formKey, clock.instant());
    }
  }

  /** There is nothing to file where it is so already. */
  private boolean hasExactly(UUID personId, Set<Role> roles) {
    return people.memberships().stream()
        .anyMatch(m -> m.personId.equals(personId) && rolesOf(m).equals(roles));
  }

  /** Ends every session a member has anywhere, at once. */
  @Filing
  public void shutOut(Viewer viewer, UUID personId) {
    one(viewer, personId);
    people.person(personId).generation++;
  }

  @Filing
  public UUID addLicence(Viewer viewer, UUID personId, NewLicence wanted) {
    return addLicence(viewer, personId, wanted, null);
  }

  @Filing
  public UUID addLicence(Viewer viewer, UUID personId, NewLicence wanted, UUID formKey) {
    one(viewer, personId);
    Licence before = people.ofForm(Licence.class, formKey);
    if (before != null) {
      return before.id();
    }
    for (Licence filed : people.licences()) {
      // Nothing to file where it stands so already.
      if (filed.personId.equals(personId) && line(filed).says(wanted)) {
        return filed.id();
      }
    }
    Licence licence = licence(personId, wanted);
    licence.fromForm(formKey);
    Instant now = clock.instant();
    stamp(viewer, licence, null, now);
    ledger.file(act(viewer, now), licence);
    return licence.id();
  }

  private boolean lastOwner(UUID personId) {
    return people.memberships().stream()
        .noneMatch(m -> !m.personId.equals(personId) && rolesOf(m).contains(Role.OWNER));
  }

  private void file(
      Viewer viewer, Membership membership, String reason, UUID formKey, Instant now) {
    stamp(viewer, membership, reason, now);
    membership.fromForm(formKey);
    ledger.file(act(viewer, now), membership);
  }

  private static void stamp(Viewer viewer, trestle.ledger.Filed row, String reason, Instant now) {
    row.happened(now, viewer.dateOf(now));
    row.because(reason);
  }

  private static Act act(Viewer viewer, Instant now) {
    return new Act(viewer.operatorId(), viewer.personId(), now);
  }

  private static Licence licence(UUID personId, NewLicence wanted) {
    Licence licence = new Licence();
    licence.personId = personId;
    licence.number = wanted.number();
    licence.kind = wanted.kind();
    licence.ratings = wanted.ratings();
    licence.authorisation = wanted.authorisation();
    licence.expiresOn = wanted.expiresOn();
    return licence;
  }

  private static Set<Role> rolesOf(Membership membership) {
    Set<Role> roles = EnumSet.noneOf(Role.class);
    Arrays.stream(membership.roles).map(Role::parse).forEach(roles::add);
    return roles;
  }

  private static Member member(Person person, Set<Role> roles, List<LicenceLine> licences) {
    return new Member(
        person.id,
        person.name,
        person.signInName,
        roles,
        licences.stream().filter(l -> l.personId().equals(person.id)).toList());
  }

  private static LicenceLine line(Licence row) {
    return new LicenceLine(
        row.id(),
        row.personId,
        row.number,
        row.kind,
        row.ratings,
        row.authorisation,
        row.expiresOn);
  }
}
