package trestle.people;

import java.time.ZoneId;
import java.util.EnumMap;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.web.Role;
import trestle.web.Viewer;

/** An invented operator made through the ordinary use cases, with one member in each role. */
public record Company(UUID operatorId, String name, UUID administrator, Map<Role, UUID> people) {
  public static final String PASSWORD = "correct horse battery staple";
  private static final ZoneId ZONE = ZoneId.of("America/St_Johns");

  /** A new operator of that name; sign-in names are the role at the name: "pilot@name". */
  public static Company founded(String name, Operators operators, Members members) {
    UUID founder = person(name, "founder", operators);
    Viewer administrator = new Viewer(founder, "Founder", true, null, null, ZONE, true, Set.of());
    Map<Role, UUID> people = new EnumMap<>(Role.class);
    people.put(Role.OWNER, person(name, "owner", operators));
    UUID operator =
        operators.create(
            administrator,
            new Operators.NewOperator(name, "Port Maddern", ZONE.getId(), "utc", false),
            people.get(Role.OWNER),
            Set.of(Role.OWNER));
    Company company = new Company(operator, name, founder, people);
    for (Role role : Role.values()) {
      if (role != Role.OWNER) {
        people.put(role, person(name, role.word(), operators));
        members.takeIn(
            company.viewer(Role.OWNER), role.word(), role.word() + "@" + name, Set.of(role));
      }
    }
    return company;
  }

  public Viewer viewer(Role role) {
    return new Viewer(
        people.get(role), role.word(), false, operatorId, name, ZONE, true, Set.of(role));
  }

  public Visitor visitor(Role role) {
    return Visitor.signedIn(role.word() + "@" + name, PASSWORD);
  }

  private static UUID person(String name, String word, Operators operators) {
    return operators.personFor(
        Anyone.VIEWER, new Operators.NewPerson(word, word + "@" + name, PASSWORD));
  }
}
