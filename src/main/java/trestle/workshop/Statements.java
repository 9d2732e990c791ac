package trestle.workshop;

import java.util.LinkedHashSet;
import java.util.Set;
import trestle.profiles.RuleProfile;

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
   * The profile's words for the release of an order, of its inspections and of its other work.
   *
   * @param airworthy whether the aircraft is released
   */
  static String release(RuleProfile profile, WorkOrderSheet order, boolean airworthy) {
    if (!airworthy) {
      return profile.statements().notAirworthy();
    }
    boolean inspections = order.lines().stream().anyMatch(Statements::isInspection);
    boolean others =
        order.lines().stream()
            .anyMatch(line -> line.isDone() && !line.line().isTask() && !isInspection(line));
    Set<String> sentences = new LinkedHashSet<>();
    if (inspections) {
      sentences.add(profile.statements().inspection());
    }
    if (others || !inspections) {
      sentences.add(profile.statements().release());
    }
    return String.join(" ", sentences);
  }

  static boolean isInspection(OrderLine line) {
    return line.line().inspection() && line.isDone();
  }
}
