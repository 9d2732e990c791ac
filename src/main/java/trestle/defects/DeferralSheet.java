package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.UUID;
import trestle.profiles.RuleProfile.Route;
import trestle.reckoning.DeferralClock;
import trestle.reckoning.DeferralClock.Category;
import trestle.reckoning.Hours;
import trestle.web.Shown;

/**
 * A deferral with its extensions, as it stands in a view.
 *
 * @param category null without a list
 * @param unit of a category A item, else null
 * @param discoveredOn the day of discovery, in the time base
 * @param firstLastDay the last day before any extension; null where no day ends it
 * @param transcribedFrom the old paper it was copied from, or "" when it was decided here
 * @param signedBy who signed that paper, or ""
 */
public record DeferralSheet(
    UUID id,
    UUID defectEntryId,
    UUID aircraftId,
    Route route,
    String listReference,
    String item,
    Category category,
    DeferralUnit unit,
    Long amount,
    LocalDate discoveredOn,
    LocalDate firstLastDay,
    DeferralClock clock,
    UUID withRequirementId,
    UUID withComponentId,
    NewDeferral.Unlisted unlisted,
    NewDeferral.Conditions conditions,
    String role,
    String licenceNumber,
    String licenceKind,
    String profileName,
    Instant at,
    LocalDate on,
    long ledgerSeq,
    Instant recordedAt,
    UUID recordedBy,
    UUID corrects,
    String reason,
    String transcribedFrom,
    String signedBy,
    List<Extended> extensions) {

  /** One extension that stands. */
  public record Extended(
      UUID id,
      LocalDate on,
      LocalDate lastDay,
      LocalDate newLastDay,
      String unserviceableAt,
      String why,
      String partNumber,
      LocalDate orderedOn,
      LocalDate deliveryOn,
      String approvedBy,
      String reference,
      LocalDate authorityToldOn,
      UUID recordedBy,
      Instant recordedAt) {

    static Extended of(DeferralExtended row) {
      return new Extended(
          row.id(),
          row.happenedOn(),
          row.lastDay,
          row.newLastDay,
          row.unserviceableAt,
          row.why,
          row.partNumber,
          row.orderedOn,
          row.deliveryOn,
          row.approvedBy,
          row.reference,
          row.authorityToldOn,
          row.recordedBy(),
          row.recordedAt());
    }
  }

  static DeferralSheet of(Deferral row, List<DeferralExtended> extensions, ZoneId zone) {
    boolean listed = row.route.equals(Route.MINIMUM_EQUIPMENT_LIST.word());
    return new DeferralSheet(
        row.id(),
        row.defectEntryId,
        row.aircraftId,
        listed ? Route.MINIMUM_EQUIPMENT_LIST : Route.NO_LIST,
        row.listReference,
        row.item,
        row.category.isEmpty() ? null : Category.valueOf(row.category),
        row.unit.isEmpty() ? null : DeferralUnit.parse(row.unit),
        row.amount,
        row.discoveredOn,
        row.lastDay,
        new DeferralClock(zone, row.inUtc),
        row.withRequirementId,
        row.withComponentId,
        listed
            ? null
            : new NewDeferral.Unlisted(
                row.madeSafe,
                row.notRequired,
                row.noHazard,
                row.noHazardBy,
                row.withRequirementId,
                row.withComponentId),
        new NewDeferral.Conditions(
            row.limitation,
            row.forbids,
            row.placard,
            row.placardPlace,
            row.maintenanceProcedure,
            row.operationsProcedure),
        row.role,
        row.licenceNumber,
        row.licenceKind,
        row.profileName,
        row.happenedAt(),
        row.happenedOn(),
        row.ledgerSeq() == null ? 0 : row.ledgerSeq(),
        row.recordedAt(),
        row.recordedBy(),
        row.corrects(),
        row.reason(),
        row.transcribedFrom == null ? "" : row.transcribedFrom,
        row.signedBy == null ? "" : row.signedBy,
        extensions.stream().map(Extended::of).toList());
  }

  public boolean isTranscribed() {
    return !transcribedFrom.isEmpty();
  }

  /** The last day it may be flown with, in its time base; null where no day ends it. */
  public LocalDate lastDay() {
    return extensions.isEmpty() ? firstLastDay : extensions.get(extensions.size() - 1).newLastDay();
  }

  /** The day in the time base of a moment. */
  LocalDate dayOf(Instant moment) {
    return moment.atZone(base()).toLocalDate();
  }

  ZoneId base() {
    return clock.inUtc() ? ZoneOffset.UTC : clock.zone();
  }

  /** "by item 24-31-01, category B", or "without a list". */
  public String by() {
    return category == null ? "without a list" : "by item " + item + ", category " + category;
  }

  /** "23:59 UTC (20:29 local) on 28 November 2026", or for how long; with work, "". */
  public String until() {
    if (lastDay() != null) {
      return clock.words(lastDay()) + " on " + Shown.date(lastDay());
    }
    return unit == null ? "" : interval() + (unit == DeferralUnit.FLIGHT_DAYS ? foundOn() : "");
  }

  private String foundOn() {
    return " after " + Shown.date(discoveredOn);
  }

  /** "2 flight-days", "10.0 hours". */
  public String interval() {
    if (unit == null) {
      return category == null || category.days().isEmpty()
          ? ""
          : Shown.plural(category.days().get(), "calendar day");
    }
    String shown =
        unit == DeferralUnit.HOURS ? Shown.exact(new Hours(amount)) : Shown.count(amount);
    return shown
        + " "
        + (amount == 1 && unit != DeferralUnit.HOURS
            ? unit.shown().replaceAll("s$", "")
            : unit.shown());
  }

  public String link() {
    return "/deferrals/" + id;
  }
}
