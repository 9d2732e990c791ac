package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.Rows;
import trestle.ledger.View;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.reckoning.DeferralExtension;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Putting a deferral off once more, as the rule profile allows. */
@ApplicationScoped
public class DeferralExtensions {
  @Inject DeferralRepository repository;
  @Inject Deferrals deferrals;
  @Inject RuleProfiles profiles;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject Rows rows;
  @Inject InstantSource clock;

  /**
   * Files an extension.
   *
   * @return its id
   * @throws Refusal naming the field; at {@code new-last-day} where the profile does not allow it
   * @throws Stale when the deferral no longer stands
   */
  @Filing
  public UUID extend(Viewer viewer, NewDeferralExtension asked, UUID formKey) {
    DeferralSheet seen = deferrals.entry(viewer, asked.deferralId()).deferral();
    revisions.bump(viewer, seen.aircraftId());
    DeferralExtended before = repository.ofForm(DeferralExtended.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    Deferrals.Entry entry = deferrals.entry(viewer, asked.deferralId());
    if (!entry.stands() || !entry.deferral().id().equals(asked.deferralId())) {
      throw new Stale("This deferral no longer stands. Nothing was filed.");
    }
    LocalDate day = viewer.dateOf(asked.at());
    RuleProfile profile = profiles.of(viewer, seen.aircraftId(), View.asAt(day));
    filledIn(viewer, asked, entry.deferral());
    allowed(profile, asked, entry.deferral());

    DeferralExtended row = row(asked, entry.deferral());
    row.profileName = profile.name();
    row.afterVoided = rows.lastRevoking(DeferralExtended.class, "deferralId", row.deferralId);
    row.happened(asked.at(), day);
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
    return row.id();
  }

  private void filledIn(Viewer viewer, NewDeferralExtension asked, DeferralSheet deferral) {
    if (!viewer.isAny(Role.ENGINEER, Role.CONTROLLER)) {
      throw new Refusal("", "Extensions are filed by an engineer or a controller.");
    }
    List<Refusal.Reason> reasons = new ArrayList<>();
    filled(reasons, "unserviceable-at", "Where it became unserviceable", asked.unserviceableAt());
    filled(reasons, "why", "Why", asked.why());
    filled(reasons, "approved-by", "Approved by", asked.approvedBy());
    filled(reasons, "reference", "Reference", asked.reference());
    if (asked.newLastDay() == null) {
      reasons.add(new Refusal.Reason("new-last-day", "New last day is needed."));
    }
    if (asked.at().isAfter(clock.instant())) {
      reasons.add(new Refusal.Reason("on", "Granted on must not be in the future."));
    } else if (asked.at().isBefore(deferral.at())) {
      reasons.add(new Refusal.Reason("on", "Granted on must not be before it was deferred."));
    }
    if (!reasons.isEmpty()) {
      throw new Refusal(reasons);
    }
  }

  private static void filled(
      List<Refusal.Reason> reasons, String field, String label, String text) {
    if (text == null || text.isBlank()) {
      reasons.add(new Refusal.Reason(field, label + " is needed."));
    }
  }

  private static void allowed(
      RuleProfile profile, NewDeferralExtension asked, DeferralSheet deferral) {
    if (deferral.category() == null) {
      throw new Refusal("new-last-day", "Only a deferral by an item of the list is extended.");
    }
    profile
        .deferralExtension()
        .check(
            deferral.category(),
            deferral.extensions().size(),
            deferral.lastDay(),
            asked.newLastDay())
        .ifPresent(
            refused -> {
              throw new Refusal("new-last-day", sentence(refused, profile, deferral));
            });
    if (!asked.newLastDay().isAfter(deferral.lastDay())) {
      throw new Refusal(
          "new-last-day",
          "New last day must be after " + Shown.date(deferral.lastDay()) + ", the one it extends.");
    }
  }

  private static String sentence(
      DeferralExtension.Refused refused, RuleProfile profile, DeferralSheet deferral) {
    String under = " under this rule profile, “" + profile.name() + "”.";
    return switch (refused) {
      case CATEGORY ->
          deferral.category().days().isEmpty()
              ? "Category A states its own interval and is not extended."
              : "Category " + deferral.category() + " is not extended" + under;
      case TIMES ->
          "It was extended "
              + (deferral.extensions().size() == 1
                  ? "once"
                  : Shown.plural(deferral.extensions().size(), "time"))
              + " already, and no more is allowed"
              + under;
      case LENGTH ->
          "New last day must be "
              + Shown.date(DeferralExtension.latest(deferral.category(), deferral.lastDay()))
              + " at the latest: at most its own interval once more.";
    };
  }

  private static DeferralExtended row(NewDeferralExtension asked, DeferralSheet deferral) {
    DeferralExtended row = new DeferralExtended();
    row.aircraftId = deferral.aircraftId();
    row.defectEntryId = deferral.defectEntryId();
    row.deferralId = deferral.id();
    row.lastDay = deferral.lastDay();
    row.newLastDay = asked.newLastDay();
    row.unserviceableAt = asked.unserviceableAt().strip();
    row.why = asked.why().strip();
    row.partNumber = asked.partNumber().strip();
    row.orderedOn = asked.orderedOn();
    row.deliveryOn = asked.deliveryOn();
    row.approvedBy = asked.approvedBy().strip();
    row.reference = asked.reference().strip();
    row.authorityToldOn = asked.authorityToldOn();
    return row;
  }
}
