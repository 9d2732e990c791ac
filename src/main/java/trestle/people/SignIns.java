package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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

  private static final String NOT_RIGHT =
      "Password is not right, so nothing was signed. Capitals count in it.";

  private static final String OLD_NOT_RIGHT = "Password now in use is not right.";

  @Inject PeopleRepository people;
  @Inject InstantSource clock;
  @Inject SignIns self;

  /** An operator that a person may work in. */
  public record Place(UUID operatorId, String name) {}

  private record Answer(UUID personId, String refusal) {}

  /**
   * Opens a session for who proves to be that person.
   *
   * @return the session's id
   * @throws Refusal with the same sentence for an unknown name and a wrong password; with another
   *     when the brake is on
   */
  public UUID signIn(String name, String password, String address) {
    Answer proof = self.prove(Anyone.VIEWER, name, password, address);
    if (proof.personId() == null) {
      throw new Refusal("", proof.refusal());
    }
    return self.open(Anyone.VIEWER, proof.personId());
  }

  /** Counts a failure in a transaction that commits, whatever is answered. */
  @Filing
  Answer prove(Viewer anyone, String name, String password, String address) {
    Map<String, Integer> subjects = new LinkedHashMap<>();
    subjects.put("address:" + address, FREE_FOR_ADDRESS);
    subjects.put("name:" + Person.normal(name), FREE_FOR_NAME);
    return prove(people.named(name).orElse(null), password, subjects, NO);
  }

  /**
   * Why a person who is signed in has not proven to be that person, or null when they have; counted
   * by the same brake as signing in under their name.
   */
  @Filing
  String refusalOfPassword(Viewer anyone, UUID personId, String password) {
    return refusal(personId, password, NOT_RIGHT);
  }

  /** The same of somebody who changes it; the count stays, whatever becomes of the change. */
  @Filing
  String refusalOfOldPassword(Viewer anyone, UUID personId, String password) {
    return refusal(personId, password, OLD_NOT_RIGHT);
  }

  private String refusal(UUID personId, String password, String sentence) {
    Person person = people.person(personId);
    return prove(person, password, Map.of("name:" + person.signInName, FREE_FOR_NAME), sentence)
        .refusal();
  }

  /**
   * @param subjects whom a failure is counted against, with how many are free
   */
  private Answer prove(
      Person person, String password, Map<String, Integer> subjects, String sentence) {
    Instant now = clock.instant();
    for (String subject : subjects.keySet()) {
      SignInBrake brake = people.brake(subject);
      if (brake != null && brake.blocks(now)) {
        return new Answer(null, braked(Duration.between(now, brake.waitUntil)));
      }
    }
    if (Passwords.matches(password, person == null ? null : person.passwordHash)) {
      people.release("name:" + person.signInName);
      return new Answer(person.id, null);
    }
    subjects.forEach((subject, free) -> people.lockedBrake(subject, now).failed(now, free));
    return new Answer(null, sentence);
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

  /**
   * Changes the own password; every other session of the person ends. A wrong old one is counted
   * and braked like one at signing in.
   */
  public void changePassword(Viewer viewer, UUID sessionId, String old, String chosen) {
    String refusal = self.refusalOfOldPassword(Anyone.VIEWER, viewer.personId(), old);
    if (refusal != null) {
      throw new Refusal("old-password", refusal);
    }
    self.change(viewer, sessionId, chosen);
  }

  @Filing
  void change(Viewer viewer, UUID sessionId, String chosen) {
    Person person = people.person(viewer.personId());
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

  /**
   * Another password for somebody who has forgotten theirs, made here; every session of theirs
   * ends.
   *
   * @return empty when nobody has that sign-in name
   */
  public Optional<String> anotherPassword(String signInName) {
    return self.anotherPassword(Anyone.VIEWER, signInName);
  }

  @Filing
  Optional<String> anotherPassword(Viewer installation, String signInName) {
    return people
        .named(signInName)
        .map(
            person -> {
              String password = Passwords.made();
              person.passwordHash = Passwords.hash(password);
              person.generation++;
              return password;
            });
  }
}
