package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfile.Route;
import trestle.reckoning.DeferralClock;
import trestle.reckoning.DeferralClock.Category;
import trestle.standing.DueItem;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Whether a deferral may be filed; each refusal names the field. */
final class DeferralCheck {
  private final Viewer viewer;
  private final DefectSheet defect;
  private final NewDeferral asked;
  private final RuleProfile profile;
  private final DeferralClock counts;
  private final List<Refusal.Reason> reasons = new ArrayList<>();

  DeferralCheck(Viewer viewer, DefectSheet defect, NewDeferral asked, RuleProfile profile) {
    this.viewer = viewer;
    this.defect = defect;
    this.asked = asked;
    this.profile = profile;
    this.counts =
        new DeferralClock(viewer.zone(), profile.clockBase() == RuleProfile.ClockBase.UTC);
  }

  /** The day in the time base on which the defect was first written up. */
  LocalDate discoveredOn() {
    ZoneId base = counts.inUtc() ? ZoneOffset.UTC : counts.zone();
    return defect.defect().discoveredAt().atZone(base).toLocalDate();
  }

  /** The last day it may be flown with, or null where no day ends it. */
  LocalDate lastDay() {
    if (asked.listed() == null) {
      return null;
    }
    Category category = asked.listed().category();
    if (category != Category.A) {
      return DeferralClock.lastDay(discoveredOn(), category);
    }
    return asked.listed().unit() == DeferralUnit.DAYS
        ? DeferralClock.lastDay(discoveredOn(), asked.listed().amount().intValue())
        : null;
  }

  boolean inUtc() {
    return counts.inUtc();
  }

  String profileName() {
    return profile.name();
  }

  /** Whether it is said from which paper it is copied, and under which licence it was decided. */
  void paper(OldPaper paper) {
    filled("transcribed-from", "Copied from", paper.transcribedFrom(), 200);
    most("signed-by", "Signed by", paper.signedBy(), 120);
    most("licence", "Licence on the papers", asked.licenceNumber(), 60);
    if (asked.by() == Role.ENGINEER && asked.licenceNumber().isBlank()) {
      refuse("licence", "Licence on the papers is needed: an engineer deferred it.");
    }
  }

  /** Whether the profile lets the viewer defer by this route at all. */
  void entitled() {
    Route route = asked.route();
    if (!profile.allows(route)) {
      throw new Refusal(
          "route",
          (route == Route.NO_LIST
                  ? "Nothing is deferred without a list"
                  : "Nothing is deferred by a list")
              + " under this rule profile, “"
              + profile.name()
              + "”.");
    }
    if (!viewer.is(asked.by()) || !profile.mayDefer(route).contains(asked.by())) {
      throw new Refusal(
          "by",
          "You may not defer this: by this route "
              + (profile.mayDefer(route).contains(Role.PILOT)
                  ? "an engineer or a pilot"
                  : "an engineer")
              + " defers, under “"
              + profile.name()
              + "”.");
    }
    if (asked.by() == Role.PILOT && defect.mustNotFly()) {
      throw new Refusal(
          "by", "Reported as “must not fly”: an engineer decides whether it is deferred.");
    }
  }

  /** Whether everything is said that must be, as of now. */
  void terms(Instant now, List<DueItem> inspections) {
    if (asked.at().isAfter(now)) {
      refuse("on", "Deferred on must not be in the future.");
    }
    if (viewer.dateOf(asked.at()).isBefore(defect.foundOn())) {
      refuse("on", "Deferred on must not be before the defect was found.");
    }
    if (asked.listed() != null) {
      listed(asked.listed());
    } else {
      unlisted(asked.unlisted(), inspections);
    }
    conditions(asked.conditions());
    throwIfAny();
  }

  private void listed(NewDeferral.Listed listed) {
    filled("list-reference", "List", listed.reference(), 120);
    filled("item", "Item", listed.item(), 60);
    if (listed.category() == null) {
      refuse("category", "Category is needed: A, B, C or D, as the list has it.");
    } else if (listed.category() == Category.A) {
      if (listed.unit() == null) {
        refuse("unit", "Category A states its own interval: say in what it is counted.");
      }
      if (listed.amount() == null || listed.amount() < 1) {
        refuse("amount", "Category A states its own interval: say how many.");
      } else if (listed.unit() == DeferralUnit.DAYS && listed.amount() > 3_650) {
        refuse("amount", "Interval must be at most 3,650 days.");
      }
    } else if (listed.unit() != null || listed.amount() != null) {
      refuse("amount", "Only category A states an interval of its own: leave this blank.");
    }
  }

  private void unlisted(NewDeferral.Unlisted unlisted, List<DueItem> inspections) {
    if (!List.of("deactivated", "removed").contains(unlisted.madeSafe())) {
      refuse("made-safe", "Say whether it was deactivated or removed.");
    }
    filled("not-required", "Why it is not required", unlisted.notRequired(), 300);
    filled("no-hazard", "Why it is no hazard", unlisted.noHazard(), 300);
    filled("no-hazard-by", "Who decided that", unlisted.noHazardBy(), 120);
    boolean required =
        inspections.stream()
            .anyMatch(
                item ->
                    item.requirementId().equals(unlisted.requirementId())
                        && (unlisted.componentId() == null
                            || item.subject().id().equals(unlisted.componentId())));
    if (!required) {
      refuse("inspection", "Inspection is needed: choose the next one required of this aircraft.");
    }
    if (asked.conditions().placard().isBlank()) {
      refuse("placard", "Placard is needed: without a list it is placarded “Inoperative”.");
    }
  }

  private void conditions(NewDeferral.Conditions conditions) {
    most("limitation", "Limitation", conditions.limitation(), 300);
    most("forbids", "What it forbids", conditions.forbids(), 60);
    most("placard", "Placard", conditions.placard(), 200);
    most("placard-place", "Its place", conditions.placardPlace(), 120);
    most("m-procedure", "(M) procedure", conditions.maintenanceProcedure(), 200);
    most("o-procedure", "(O) procedure", conditions.operationsProcedure(), 200);
    if (!conditions.forbids().isBlank() && conditions.limitation().isBlank()) {
      refuse(
          "limitation", "Limitation is needed: say what must not be flown, as a pilot reads it.");
    }
    if (!conditions.placard().isBlank() && conditions.placardPlace().isBlank()) {
      refuse("placard-place", "Place of the placard is needed.");
    }
  }

  /** Whether its days have not gone by already. */
  void notRunOut() {
    LocalDate last = lastDay();
    if (last != null && !asked.at().isBefore(counts.runsOutAt(last).toInstant())) {
      throw new Refusal(
          "category",
          "Its interval ran out on "
              + Shown.date(last)
              + ": it counts from the day the defect was found, "
              + Shown.date(discoveredOn())
              + ", whenever it is deferred.");
    }
  }

  private void filled(String field, String label, String text, int most) {
    if (text == null || text.isBlank()) {
      refuse(field, label + " is needed.");
    } else {
      most(field, label, text, most);
    }
  }

  private void most(String field, String label, String text, int most) {
    if (text.length() > most) {
      refuse(field, label + " must be at most " + most + " characters.");
    }
  }

  private void refuse(String field, String sentence) {
    reasons.add(new Refusal.Reason(field, sentence));
  }

  private void throwIfAny() {
    if (!reasons.isEmpty()) {
      throw new Refusal(reasons);
    }
  }
}
