package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.people.Members;
import trestle.people.Operators;
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

  /** A person and the password made for them, or null when they had one already. */
  record Welcomed(String name, String signInName, String roles, String password) {}

  record Taken(Cast cast, List<Welcomed> people) {}

  Taken takeIn(SeedFile.Line operator, LocalDate today) {
    List<SeedFile.Line> people = SeedFile.lines("people.csv");
    SeedFile.Line first = people.get(0);
    Operators.Welcome owner =
        operators.welcome(INSTALLATION, first.text("name"), first.text("sign_in_name"));
    Cast cast =
        new Cast(
            create(operator, first, owner.personId()),
            operator.text("name"),
            ZoneId.of(operator.text("time_zone")),
            operator.text("flight_times_in").equals("utc"));
    cast.add(first, owner.personId());
    List<Welcomed> welcomed = new ArrayList<>();
    welcomed.add(welcomed(first, owner.password()));
    for (SeedFile.Line person : people.subList(1, people.size())) {
      welcomed.add(takeIn(person, cast));
    }
    people.stream().filter(p -> p.has("licence_number")).forEach(p -> licence(p, cast, today));
    return new Taken(cast, welcomed);
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

  private Welcomed takeIn(SeedFile.Line person, Cast cast) {
    Members.Welcome welcome =
        members.takeIn(
            cast.any(Role.OWNER),
            person.text("name"),
            person.text("sign_in_name"),
            Cast.roles(person));
    cast.add(person, welcome.personId());
    return welcomed(person, welcome.password());
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

  private static Welcomed welcomed(SeedFile.Line person, String password) {
    return new Welcomed(
        person.text("name"), person.text("sign_in_name"), person.text("roles"), password);
  }
}
