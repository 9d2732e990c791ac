package trestle.workshop;

import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import trestle.profiles.RuleProfile;
import trestle.web.Shown;

/** What is signed in this room, in whole sentences. */
final class Statements {
  static final String WORKED =
      "I certify that the work stated here was carried out as written, to the data named here. This"
          + " is not yet a release of the aircraft.";

  static final String INSPECTED =
      "I did not do this work. I have inspected it independently, and certify that it is as stated"
          + " here.";

  static final String LEFT_OPEN =
      "I leave this line open at the release of the aircraft, for the reason and on the authority"
          + " stated here.";

  static final String TAKEN_AWAY =
      "I declare that the record stated here should not have been signed, for the reason stated"
          + " here, and takes no effect.";

  private Statements() {}

  /**
   * The profile's words for the release of an order, of its inspections and of its other work. That
   * is approved for itself also where an inspection finds the aircraft not airworthy.
   *
   * @param airworthy whether the aircraft is released
   */
  static String release(
      RuleProfile profile,
      WorkOrderSheet order,
      boolean airworthy,
      Releases.Progressive progressive,
      LocalDate on) {
    RuleProfile.Statements says = profile.statements();
    boolean inspections = order.lines().stream().anyMatch(Statements::isInspection);
    boolean others =
        order.lines().stream()
            .anyMatch(line -> line.isWorked() && !line.line().isTask() && !isInspection(line));
    Set<String> sentences = new LinkedHashSet<>();
    if (progressive.isSaid()) {
      sentences.add(
          progressive(says.progressive(), progressive, airworthy ? "approved" : "disapproved"));
    } else if (!airworthy) {
      sentences.add(filledIn(says.notAirworthy(), order, on));
    } else if (inspections) {
      sentences.add(filledIn(says.inspection(), order, on));
    }
    if (others || !inspections) {
      sentences.add(says.release());
    }
    return String.join(" ", sentences);
  }

  private static String progressive(String statement, Releases.Progressive asked, String verdict) {
    return statement
        .replace("[routine]", asked.routine())
        .replace("[detailed]", asked.detailed())
        .replace("[verdict]", verdict);
  }

  /**
   * With the type of inspection and the day of the list, where the profile leaves room for them.
   */
  private static String filledIn(String statement, WorkOrderSheet order, LocalDate on) {
    String types =
        order.lines().stream()
            .filter(Statements::isInspection)
            .map(line -> uncapitalised(line.line().title()))
            .collect(Collectors.joining(" and the "));
    return statement.replace("[inspection]", types).replace("[date]", Shown.date(on));
  }

  /** "Annual inspection" within a sentence; "ELT inspection" stays. */
  private static String uncapitalised(String title) {
    boolean word = title.length() > 1 && Character.isLowerCase(title.charAt(1));
    return word ? title.substring(0, 1).toLowerCase(Locale.ROOT) + title.substring(1) : title;
  }

  static boolean isInspection(OrderLine line) {
    return line.line().inspection() && line.isWorked();
  }
}
