package trestle.demo;

import java.util.List;

/** How the demo's people and their first passwords are told, on the console and in the file. */
final class DemoPeople {

  static String text(List<CastLoad.Welcomed> people) {
    StringBuilder text =
        new StringBuilder("Demo people (invented). Sign in with name and password:\n");
    for (CastLoad.Welcomed person : people) {
      text.append(
          "  %-8s %-20s %s, %s%n"
              .formatted(
                  person.signInName(),
                  person.password() == null ? "(as before)" : person.password(),
                  person.name(),
                  person.roles()));
    }
    return text.toString();
  }

  private DemoPeople() {}
}
