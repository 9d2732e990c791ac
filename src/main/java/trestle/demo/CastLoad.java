package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.server.TheClock;
import trestle.web.Role;
import trestle.web.Viewer;

/** Creates the demo operator and takes its people in. */
@ApplicationScoped
class CastLoad {
  static final String LOADING = " (being loaded)";
  static final Viewer INSTALLATION =
      new Viewer(null, "", true, null, null, ZoneOffset.UTC, true, Set.of());

  @Inject Operators operators;
  @Inject Members members;
  @Inject TheClock clock;

  /**
   * A person of the demo.
   *
   * @param password what they sign in with at first; null when that is not kept here
   * @param isNew whether they are yet to be created
   */
  record Invited(String name, String signInName, String roles, String password, boolean isNew) {}

  /**
   * Who will be taken in, before anybody is created: so that no password is lost, whenever the
   * loading is cut short.
   *
   * @param kept passwords that were told earlier, by sign-in name
   */
  List<Invited> invite(Map<String, String> kept) {
    return SeedFile.lines("people.csv").stream().map(person -> invite(person, kept)).toList();
  }

  private Invited invite(SeedFile.Line person, Map<String, String> kept) {
    String name = person.text("name");
    String signInName = person.text("sign_in_name");
    boolean isNew = !operators.isKnown(INSTALLATION, signInName);
    String password = kept.get(signInName);
    if (isNew && password == null) {
      password = Operators.NewPerson.withMadePassword(name, signInName).password();
    }
    return new Invited(name, signInName, person.text("roles"), password, isNew);
  }

  /** Creates those who are new, several at once: a password takes its time to hash. */
  void create(List<Invited> people, Instant when) {
    people.parallelStream().filter(Invited::isNew).forEach(person -> create(person, when));
  }

  private void create(Invited person, Instant when) {
    Operators.NewPerson wanted =
        new Operators.NewPerson(person.name(), person.signInName(), person.password());
    try {
      clock.telling(when, () -> operators.personFor(INSTALLATION, wanted));
    } catch (Exception e) {
      throw new IllegalStateException(person.signInName() + " could not be created", e);
    }
  }

  Cast takeIn(SeedFile.Line operator, LocalDate today) {
    List<SeedFile.Line> people = SeedFile.lines("people.csv");
    SeedFile.Line first = people.get(0);
    UUID owner =
        operators.welcome(INSTALLATION, first.text("name"), first.text("sign_in_name")).personId();
    Cast cast =
        new Cast(
            create(operator, first, owner),
            operator.text("name"),
            ZoneId.of(operator.text("time_zone")),
            operator.text("flight_times_in").equals("utc"));
    cast.add(first, owner);
    people.subList(1, people.size()).forEach(person -> takeIn(person, cast));
    people.stream().filter(p -> p.has("licence_number")).forEach(p -> licence(p, cast, today));
    return cast;
  }

  private UUID create(SeedFile.Line operator, SeedFile.Line first, UUID owner) {
    Viewer creator =
        new Viewer(owner, first.text("name"), true, null, null, ZoneOffset.UTC, true, Set.of());
    return operators.create(
        creator,
        new Operators.NewOperator(
            operator.text("name") + LOADING,
            operator.text("base"),
            operator.text("time_zone"),
            operator.text("flight_times_in"),
            true),
        owner,
        Cast.roles(first));
  }

  private void takeIn(SeedFile.Line person, Cast cast) {
    Members.Welcome welcome =
        members.takeIn(
            cast.any(Role.OWNER),
            person.text("name"),
            person.text("sign_in_name"),
            Cast.roles(person));
    cast.add(person, welcome.personId());
  }

  private void licence(SeedFile.Line person, Cast cast, LocalDate today) {
    LocalDate expires =
        person.has("licence_expires_in_days")
            ? today.plusDays(person.count("licence_expires_in_days"))
            : null;
    members.addLicence(
        cast.any(Role.OWNER),
        cast.of(person.text("sign_in_name")).personId(),
        new Members.NewLicence(
            person.text("licence_number"),
            person.text("licence_kind"),
            person.text("ratings"),
            person.text("authorisation"),
            expires));
  }
}
