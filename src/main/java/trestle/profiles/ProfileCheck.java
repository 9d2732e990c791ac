package trestle.profiles;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import trestle.reckoning.DeferralClock.Category;
import trestle.web.Refusal;
import trestle.web.Role;

/** Whether a profile may be filed; each refusal names the field. */
final class ProfileCheck {
  private static final Set<Role> DEFERRERS = Set.of(Role.ENGINEER, Role.PILOT);

  private final List<Refusal.Reason> reasons = new ArrayList<>();

  private ProfileCheck() {}

  static List<Refusal.Reason> of(NewProfile asked) {
    ProfileCheck check = new ProfileCheck();
    check.says(asked.profile());
    check.filled("reason", "Reason", asked.reason());
    check.filled("approved-by", "Approved by", asked.approvedBy());
    return check.reasons;
  }

  private void says(RuleProfile profile) {
    if (profile == null) {
      return;
    }
    filled("name", "Name", profile.name());
    for (RuleProfile.Deferring one : profile.deferring()) {
      if (!DEFERRERS.containsAll(one.by())) {
        refuse(one.route().word(), "Only engineers and pilots defer.");
      }
    }
    if (profile.deferralExtension().categories().contains(Category.A)) {
      refuse("extend", "Category A states its own interval and is not extended.");
    }
    between("extend-times", "Times", profile.deferralExtension().times(), 0, 9);
    between("repeat-days", "Days", profile.repeatWithinDays(), 0, 3650);
    between("repeat-flights", "Flights", profile.repeatWithinFlights(), 0, 10_000);
    between("retention", "Kept for", profile.retentionMonths(), 1, 1200);
    if (profile.lateEntryDays() != null) {
      between("late-entry", "Late entry", profile.lateEntryDays(), 0, 3650);
    }
  }

  private void filled(String field, String label, String text) {
    if (text == null || text.isBlank()) {
      refuse(field, label + " is needed.");
    }
  }

  private void between(String field, String label, int number, int least, int most) {
    if (number < least || number > most) {
      refuse(field, label + " must be from " + least + " to " + most + ".");
    }
  }

  private void refuse(String field, String sentence) {
    reasons.add(new Refusal.Reason(field, sentence));
  }
}
