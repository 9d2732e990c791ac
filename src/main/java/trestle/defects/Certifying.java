package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import trestle.people.Members;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** What an engineer signs for work, and under what. */
@ApplicationScoped
class Certifying {
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

  static final String TAKEN_AWAY =
      "I declare that the record stated here should not have been filed, for the reason stated"
          + " here, and takes no effect.";

  @Inject Members members;
  @Inject InstantSource clock;

  /**
   * What is certified, and how its form calls it.
   *
   * @param field of the words
   * @param notBefore the day on which there was something to be done
   * @param since what happened that day: "the defect was found"
   */
  record Asked(String field, String label, LocalDate notBefore, String since) {}

  /**
   * The viewer's own licence for the work, good on its day.
   *
   * @throws Refusal when there is none such, or something is not said
   */
  Members.LicenceLine licence(Viewer viewer, CertifiedWork work, Asked asked) {
    if (work.words().isEmpty() || work.words().length() > 4_000) {
      throw new Refusal(
          asked.field(), asked.label() + " must be said, in at most 4,000 characters.");
    }
    if (work.dataReference().isEmpty() || work.dataReference().length() > 200) {
      throw new Refusal(
          "data-reference", "Data must name the approved data it was done to, in 200 characters.");
    }
    done(viewer, work.at(), asked);
    return licence(viewer, work.licenceNumber(), viewer.dateOf(work.at()));
  }

  /**
   * @throws Refusal when work is said to be done in the future, or before there was any to do
   */
  void done(Viewer viewer, Instant at, Asked asked) {
    if (at.isAfter(clock.instant())) {
      throw new Refusal("on", "The day it was done must not be in the future.");
    }
    if (viewer.dateOf(at).isBefore(asked.notBefore())) {
      throw new Refusal("on", "The day it was done must not be before " + asked.since() + ".");
    }
  }

  private Members.LicenceLine licence(Viewer viewer, String number, LocalDate day) {
    return members.licencesOf(viewer, viewer.personId(), day).stream()
        .filter(licence -> licence.number().equals(number.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new Refusal(
                    "licence",
                    "Licence must be one of yours that was good on the day of the work."));
  }

  /**
   * @throws Refusal without a reason why a record changes
   */
  static void reasonNeeded(String reason) {
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it changes.");
    }
  }
}
