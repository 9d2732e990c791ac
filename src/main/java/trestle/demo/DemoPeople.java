package trestle.demo;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/** How the demo's people and their first passwords are told, on the console and in the file. */
final class DemoPeople {
  private static final String UNKNOWN = "(as before)";
  private static final Pattern PERSON = Pattern.compile("(?m)^  (\\S+) +([^ (]\\S*) +\\S.*$");

  static String text(List<CastLoad.Invited> people) {
    StringBuilder text =
        new StringBuilder("Demo people (invented). Sign in with name and password:\n");
    for (CastLoad.Invited person : people) {
      text.append(
          "  %-8s %-20s %s, %s%n"
              .formatted(
                  person.signInName(),
                  person.password() == null ? UNKNOWN : person.password(),
                  person.name(),
                  person.roles()));
    }
    return text.toString();
  }

  /** The passwords in such a text, by sign-in name. */
  static Map<String, String> passwords(String text) {
    Map<String, String> passwords = new HashMap<>();
    PERSON
        .matcher(text)
        .results()
        .forEach(person -> passwords.put(person.group(1), person.group(2)));
    return passwords;
  }

  private DemoPeople() {}
}
