package trestle.defects;

import java.time.LocalDate;
import trestle.people.Members;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** What an engineer signs for work, and under what. */
final class Certifying {
  static final String RECTIFIED =
      "I certify that this defect was put right as stated here, to the data named here. This is not"
          + " yet a release of the aircraft.";

  static final String INSPECTED =
      "I certify that the inspection this event asks for was carried out as stated here, to the"
          + " data named here. This is not yet a release of the aircraft.";

  static final String DEFERRED =
      "I have decided that this aircraft may be flown with this defect until the limit and on the"
          + " conditions stated here.";

  static final String TRIAGED =
      "I have looked at this defect, and this is what it means for flight.";

  private Certifying() {}

  /**
   * The viewer's own licence of that number, good on the day of the work.
   *
   * @throws Refusal when there is none such
   */
  static Members.LicenceLine licence(Members members, Viewer viewer, String number, LocalDate day) {
    return members.licencesOf(viewer, viewer.personId(), day).stream()
        .filter(licence -> licence.number().equals(number.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new Refusal(
                    "licence",
                    "Licence must be one of yours that was good on the day of the work."));
  }
}
