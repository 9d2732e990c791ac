package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.Arrays;
import java.util.Locale;
import trestle.people.Members;
import trestle.people.Members.LicenceLine;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** Whether somebody may sign for work, and whether what they sign says enough. */
@ApplicationScoped
class Entitled {
  @Inject Members members;

  /**
   * The viewer's own licence, good on the day of the work.
   *
   * @throws Refusal at {@code licence}
   */
  LicenceLine licence(Viewer viewer, String number, Instant at) {
    if (!viewer.is(Role.ENGINEER)) {
      throw new Refusal("", "Only an engineer signs for work.");
    }
    return members.licencesOf(viewer, viewer.personId(), viewer.dateOf(at)).stream()
        .filter(licence -> licence.number().equals(number == null ? "" : number.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new Refusal(
                    "licence",
                    "Licence must be one of yours that was good on the day of the work."));
  }

  /** The same, rated for what the line asks for. */
  LicenceLine licence(Viewer viewer, String number, Instant at, LineSheet line) {
    LicenceLine licence = licence(viewer, number, at);
    if (!line.rating().isEmpty() && !isRated(licence, line.rating())) {
      throw new Refusal(
          "licence",
          "Licence "
              + licence.number()
              + (licence.ratings().isBlank()
                  ? " states no ratings"
                  : " is rated for " + licence.ratings())
              + ": line "
              + line.ordinal()
              + " asks for "
              + line.rating()
              + ".");
    }
    return licence;
  }

  private static boolean isRated(LicenceLine licence, String rating) {
    return Arrays.stream(licence.ratings().split("[,;/]"))
        .map(one -> one.strip().toLowerCase(Locale.ROOT))
        .anyMatch(rating.strip().toLowerCase(Locale.ROOT)::equals);
  }

  /**
   * @param line named where several are signed at a press; else null
   * @throws Refusal where something is not said, or the day can't be
   */
  static void check(NewWork work, Instant now, LineSheet line) {
    String where = line == null ? "" : "Line " + line.ordinal() + ": ";
    if (work.words().isEmpty() || work.words().length() > 4_000) {
      throw new Refusal(
          "words", where + "What was done must be said, in at most 4,000 characters.");
    }
    boolean applies = work.outcome() != Outcome.NOT_APPLICABLE;
    if (applies && work.dataReference().isEmpty() || work.dataReference().length() > 200) {
      throw new Refusal(
          "data-reference",
          where + "Data must name the approved data it was done to, in 200 characters.");
    }
    if (work.dataRevision().length() > 60) {
      throw new Refusal("data-revision", where + "Revision must be at most 60 characters.");
    }
    if (work.performedBy().length() > 120) {
      throw new Refusal("performed-by", where + "Done by must be at most 120 characters.");
    }
    if (work.at().isAfter(now)) {
      throw new Refusal("on", where + "The day it was done must not be in the future.");
    }
    if ((work.outcome() == Outcome.FINDING) != (work.finding() != null)) {
      throw new Refusal(
          "finding", where + "A finding must become a line of this order, or a defect.");
    }
    if (work.finding() != null
        && (work.finding().words().isEmpty() || work.finding().words().length() > 2_000)) {
      throw new Refusal(
          "finding-words", where + "What was found must be said, in at most 2,000 characters.");
    }
  }
}
