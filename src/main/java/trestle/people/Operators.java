package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.InstantSource;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** The installation's own acts: its first administrator, its operators and their first owner. */
@ApplicationScoped
public class Operators {
  @Inject PeopleRepository people;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /** An operator as its administrator and its members see it. */
  public record Line(UUID id, String name, String base, String timeZone, boolean demo) {}

  /**
   * What a new operator is.
   *
   * @param timeZone an IANA name; every date of the operator is a date there, for ever
   * @param flightTimesIn "utc" or "local"
   */
  public record NewOperator(
      String name, String base, String timeZone, String flightTimesIn, boolean demo) {}

  /** Someone to be created, with the password they sign in with first. */
  public record NewPerson(String name, String signInName, String password) {
    /** Somebody whose password is made here, to be told to them. */
    public static NewPerson withMadePassword(String name, String signInName) {
      return new NewPerson(name, signInName, Passwords.made());
    }
  }

  @Reading
  public boolean hasAdministrator(Viewer anyone) {
    return people.anyAdministrator();
  }

  /** Only while the installation has no administrator: afterwards it is refused. */
  @Filing
  public UUID firstAdministrator(Viewer anyone, NewPerson first) {
    people.lockAdministrators();
    if (people.anyAdministrator()) {
      throw new Refusal("", "This installation has its administrator already. Sign in instead.");
    }
    Person person = create(first);
    people.persist(new Administrator(person.id, clock.instant(), null));
    return person.id;
  }

  @Reading
  public List<Line> all(Viewer administrator) {
    people.speakForInstallation();
    return people.operators().stream().map(Operators::line).toList();
  }

  /** Whether there is any operator whose name doesn't end so. */
  @Reading
  public boolean anyBut(Viewer administrator, String ending) {
    people.speakForInstallation();
    return people.anyOperatorBut(ending);
  }

  @Reading
  public boolean demoExists(Viewer anyone) {
    people.speakForInstallation();
    return people.anyDemo();
  }

  /** Creates an operator, its empty ledger, and files its first owner's membership. */
  @Filing
  public UUID create(Viewer administrator, NewOperator wanted, UUID firstOwner, Set<Role> roles) {
    people.speakForInstallation();
    Instant now = clock.instant();
    Operator operator = new Operator();
    operator.name = wanted.name();
    operator.base = wanted.base();
    operator.timeZone = zone(wanted.timeZone()).getId();
    operator.flightTimesIn = wanted.flightTimesIn();
    operator.demo = wanted.demo();
    operator.createdAt = now;
    operator.createdBy = administrator.personId();
    people.persist(operator);
    people.flush();
    people.speakFor(operator.id);
    Act act = new Act(operator.id, administrator.personId(), now);
    ledger.open(act);
    Membership owner = new Membership(firstOwner, roles);
    owner.happened(now, now.atZone(operator.zone()).toLocalDate());
    ledger.file(act, owner);
    people.flush();
    return operator.id;
  }

  /** Whether somebody here has that sign-in name, in whichever operator. */
  @Reading
  public boolean isKnown(Viewer administrator, String signInName) {
    return people.named(signInName).isPresent();
  }

  /** The person with that sign-in name, created with the password if there is none yet. */
  @Filing
  public UUID personFor(Viewer administrator, NewPerson wanted) {
    return people.named(wanted.signInName()).map(p -> p.id).orElseGet(() -> create(wanted).id);
  }

  /** Someone welcomed by the installation itself; password null: they had one already. */
  public record Welcome(UUID personId, String password) {}

  /**
   * The person with that sign-in name, created with a password made here if there is none yet; the
   * installation's administrator too, while it has none.
   */
  @Filing
  public Welcome welcome(Viewer anyone, String name, String signInName) {
    Optional<Person> known = people.named(signInName);
    String password = known.isPresent() ? null : Passwords.made();
    UUID person =
        known.map(p -> p.id).orElseGet(() -> create(new NewPerson(name, signInName, password)).id);
    people.lockAdministrators();
    if (!people.anyAdministrator()) {
      people.flush();
      people.persist(new Administrator(person, clock.instant(), null));
    }
    return new Welcome(person, password);
  }

  /** Gives an operator another name, and says whether it is a demo. Its records stay. */
  @Filing
  public void rename(Viewer administrator, UUID operatorId, String name, boolean demo) {
    people.speakForInstallation();
    Operator operator = people.operator(operatorId);
    operator.name = name;
    operator.demo = demo;
  }

  private Person create(NewPerson wanted) {
    if (people.named(wanted.signInName()).isPresent()) {
      throw new Refusal("sign-in-name", "Sign-in name is taken. Choose another.");
    }
    String complaint = Passwords.complaint(wanted.password());
    if (complaint != null) {
      throw new Refusal("password", complaint);
    }
    Person person =
        new Person(
            wanted.name(), wanted.signInName(), Passwords.hash(wanted.password()), clock.instant());
    people.persist(person);
    return person;
  }

  private static ZoneId zone(String name) {
    try {
      return ZoneId.of(name);
    } catch (DateTimeException e) {
      throw new Refusal(
          "time-zone", "Time zone must be a name of the IANA list, like America/St_Johns.");
    }
  }

  private static Line line(Operator operator) {
    return new Line(operator.id, operator.name, operator.base, operator.timeZone, operator.demo);
  }
}
