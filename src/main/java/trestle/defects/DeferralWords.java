package trestle.defects;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import trestle.reckoning.DeferralExtension;
import trestle.standing.DueItem;
import trestle.web.Shown;

/** A deferral as its page writes it. */
final class DeferralWords {
  record Fact(String name, String value) {}

  private final List<Fact> facts = new ArrayList<>();

  private DeferralWords() {}

  /**
   * @param by who filed it: who deferred it, or copied it from old papers
   */
  static List<Fact> facts(DefectSheet defect, DeferralSheet deferral, DueItem item, String by) {
    DeferralWords words = new DeferralWords();
    words.until(defect, deferral, item);
    words.how(deferral);
    words.conditions(deferral.conditions());
    if (deferral.isTranscribed()) {
      words.add("Deferred by", by(deferral, deferral.signedBy()));
      words.add(
          "Transcribed from", deferral.transcribedFrom() + ", by " + by + ": not a certification");
    } else {
      words.add("Deferred by", by(deferral, by));
    }
    words.add("Under the rule profile", deferral.profileName());
    return words.facts;
  }

  private void until(DefectSheet defect, DeferralSheet deferral, DueItem item) {
    add("May be flown with", item == null ? deferral.until() : item.ruleWords());
    add("Interval", deferral.interval());
    add(
        "Day of discovery",
        Shown.date(deferral.discoveredOn())
            + (deferral.clock().inUtc() ? " UTC" : " local")
            + ", not counted");
    if (!defect.foundOn().equals(deferral.discoveredOn())) {
      add("Found on, local", Shown.date(defect.foundOn()));
    }
    if (!deferral.extensions().isEmpty()) {
      add("Last day before it was extended", Shown.date(deferral.firstLastDay()));
    }
  }

  private void how(DeferralSheet deferral) {
    if (deferral.category() != null) {
      add("List", deferral.listReference());
      add("Item", deferral.item());
      add("Category", deferral.category().name());
      return;
    }
    NewDeferral.Unlisted unlisted = deferral.unlisted();
    add("Route", "without a list");
    add("Made safe", unlisted.madeSafe());
    add("Not required", unlisted.notRequired());
    add("No hazard", unlisted.noHazard() + ", decided by " + unlisted.noHazardBy());
  }

  private void conditions(NewDeferral.Conditions conditions) {
    add("Limitation", conditions.limitation());
    add("It forbids", conditions.forbids());
    add(
        "Placard",
        conditions.placard().isEmpty()
            ? ""
            : "“" + conditions.placard() + "”, at " + conditions.placardPlace());
    add("(M) procedure", conditions.maintenanceProcedure());
    add("(O) procedure", conditions.operationsProcedure());
  }

  private static String by(DeferralSheet deferral, String by) {
    String kind = deferral.licenceKind().isEmpty() ? "licence" : deferral.licenceKind();
    String licence =
        deferral.licenceNumber().isEmpty() ? "" : ", " + kind + " " + deferral.licenceNumber();
    return (by.isEmpty() ? "someone not named" : by)
        + ", "
        + deferral.role()
        + licence
        + ", on "
        + Shown.date(deferral.on());
  }

  /** The facts of an extension record. */
  static List<Fact> facts(DeferralSheet.Extended one, String by) {
    DeferralWords words = new DeferralWords();
    words.add("From", Shown.date(one.lastDay()));
    words.add("To", Shown.date(one.newLastDay()));
    words.add("Why", one.why());
    words.add("Became unserviceable at", one.unserviceableAt());
    words.add("Part number", one.partNumber());
    words.add("Ordered on", date(one.orderedOn()));
    words.add("First delivery confirmed", date(one.deliveryOn()));
    words.add("Approved by", one.approvedBy() + ", " + one.reference());
    words.add(
        "Authority told", one.authorityToldOn() == null ? "not yet" : date(one.authorityToldOn()));
    words.add("Filed by", by);
    return words.facts;
  }

  /** How far it may still be extended, or why not, as the profile says now. */
  static LocalDate latest(DeferralSheet deferral) {
    return deferral.lastDay() == null
            || deferral.category() == null
            || deferral.category().days().isEmpty()
        ? null
        : DeferralExtension.latest(deferral.category(), deferral.lastDay());
  }

  private static String date(LocalDate day) {
    return day == null ? "" : Shown.date(day);
  }

  private void add(String name, String value) {
    if (value != null && !value.isBlank()) {
      facts.add(new Fact(name, value));
    }
  }
}
