package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * Signing in and out, changing operator, and shutting out: all of it works at once on every node.
 */
@ApplicationScoped
public class SignIns {
  static final Duration SESSION = Duration.ofDays(14);
  private static final int FREE_FOR_NAME = 5;
  private static final int FREE_FOR_ADDRESS = 50;
  private static final String NO =
      "Name or password is not right. Check both and try again; capitals count in the password.";

  @Inject PeopleRepository people;
  @Inject InstantSource clock;
  @Inject SignIns self;

  /** An operator that a person may work in. */
  public record Place(UUID operatorId, String name) {}

  private record Proof(UUID personId, String refusal) {}

  /**
   * Opens a session for who proves to be that person.
   *
   * @return the session's id
   * @throws Refusal with the same sentence for an unknown name and a wrong password; with another
   *     when the brake is on
   */
  public UUID signIn(String name, String password, String address) {
    Proof proof = self.prove(Anyone.VIEWER, name, password, address);
    if (proof.personId() == null) {
      throw new Refusal("", proof.refusal());
    }
    return self.open(Anyone.VIEWER, proof.personId());
  }

  /** Counts a failure in a transaction that commits, whatever is answered. */
  @Filing
  Proof prove(Viewer anyone, String name, String password, String address) {
    Instant now = clock.instant();
    String byName = "name:" + Person.normal(name);
    String byAddress = "address:" + address;
    for (String subject : List.of(byName, byAddress)) {
      SignInBrake brake = people.brake(subject);
      if (brake != null && brake.blocks(now)) {
        return new Proof(null, braked(Duration.between(now, brake.waitUntil)));
      }
    }
    Optional<Person> person = people.named(name);
    if (Passwords.matches(password, person.map(p -> p.passwordHash).orElse(null))) {
      people.release(byName);
      return new Proof(person.orElseThrow().id, null);
    }
    people.lockedBrake(byAddress, now).failed(now, FREE_FOR_ADDRESS);
    people.lockedBrake(byName, now).failed(now, FREE_FOR_NAME);
    return new Proof(null, NO);
  }

  private static String braked(Duration wait) {
    long minutes = Math.max(1, wait.plusSeconds(59).toMinutes());
    return "Too many tries. Wait "
        + (minutes == 1 ? "a minute" : minutes + " minutes")
        + ", then try again.";
  }

  @Filing
  UUID open(Viewer anyone, UUID personId) {
    people.speakForInstallation();
    Instant now = clock.instant();
    people.forgetExpiredSessions(personId, now);
    List<Operator> places = people.operatorsOf(personId);
    Session session = new Session();
    session.personId = personId;
    session.operatorId = places.isEmpty() ? null : places.get(0).id;
    session.generation = people.person(personId).generation;
    session.startedAt = now;
    session.expiresAt = now.plus(SESSION);
    people.persist(session);
    return session.id;
  }

  @Filing
  public void signOut(Viewer viewer, UUID sessionId) {
    Session session = people.session(sessionId);
    if (session != null) {
      people.remove(session);
    }
  }

  /** Ends every session of the person who asks. */
  @Filing
  public void signOutEverywhere(Viewer viewer) {
    people.person(viewer.personId()).generation++;
  }

  @Reading
  public List<Place> places(Viewer viewer) {
    people.speakForInstallation();
    return people.operatorsOf(viewer.personId()).stream()
        .map(operator -> new Place(operator.id, operator.name))
        .toList();
  }

  /** From now on this session works in another operator of the person. */
  @Filing
  public void choose(Viewer viewer, UUID sessionId, UUID operatorId) {
    people.speakForInstallation();
    boolean member =
        people.operatorsOf(viewer.personId()).stream().anyMatch(o -> o.id.equals(operatorId));
    Session session = people.session(sessionId);
    if (!member || session == null) {
      throw new NotHere("You are no member of such an operator.");
    }
    session.operatorId = operatorId;
  }

  /** Changes the own password; every other session of the person ends. */
  @Filing
  public void changePassword(Viewer viewer, UUID sessionId, String old, String chosen) {
    Person person = people.person(viewer.personId());
    if (!Passwords.matches(old, person.passwordHash)) {
      throw new Refusal("old-password", "Password now in use is not right.");
    }
    String complaint = Passwords.complaint(chosen);
    if (complaint != null) {
      throw new Refusal("new-password", complaint);
    }
    person.passwordHash = Passwords.hash(chosen);
    person.generation++;
    Session session = people.session(sessionId);
    if (session != null) {
      session.generation = person.generation;
    }
  }
}
