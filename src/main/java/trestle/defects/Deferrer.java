package trestle.defects;

import java.time.LocalDate;
import java.util.List;
import trestle.people.Members;
import trestle.people.Members.LicenceLine;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Under which licence a person decides about a defect. */
final class Deferrer {
  private Deferrer() {}

  /** The licence of a deferral; null for a pilot of whom none is on record. */
  static LicenceLine licence(Members members, Viewer viewer, NewDeferral asked, LocalDate day) {
    List<LicenceLine> all = members.one(viewer, viewer.personId()).licences();
    if (asked.by() == Role.PILOT && all.isEmpty()) {
      return null;
    }
    return licence(all, asked.licenceNumber(), day);
  }

  /** An engineer's licence. */
  static LicenceLine licence(Members members, Viewer viewer, String number, LocalDate day) {
    return licence(members.one(viewer, viewer.personId()).licences(), number, day);
  }

  private static LicenceLine licence(List<LicenceLine> all, String number, LocalDate day) {
    LicenceLine named =
        all.stream()
            .filter(licence -> licence.number().equals(number.strip()))
            .findFirst()
            .orElseThrow(
                () -> new Refusal("licence", "Licence is needed: choose the one you act under."));
    if (named.expiredOn(day)) {
      throw new Refusal(
          "licence",
          "Licence "
              + named.number()
              + " expired on "
              + Shown.date(named.expiresOn())
              + ": it was not valid on "
              + Shown.date(day)
              + ".");
    }
    return named;
  }
}
