package trestle.defects;

import java.time.Instant;
import java.util.UUID;
import trestle.profiles.RuleProfile.Route;
import trestle.reckoning.DeferralClock.Category;
import trestle.web.Role;

/**
 * A deferral to file.
 *
 * @param at when it was deferred
 * @param by as what the viewer defers: an engineer or a pilot
 * @param licenceNumber under which licence; "" for a pilot of whom none is on record
 * @param listed the item it is deferred by, on that route; else null
 * @param unlisted the other route's conditions; else null
 * @param conditions what holds while it is deferred
 */
public record NewDeferral(
    UUID defectEntryId,
    Instant at,
    Role by,
    String licenceNumber,
    Listed listed,
    Unlisted unlisted,
    Conditions conditions) {

  /**
   * An item of a minimum equipment list.
   *
   * @param reference the list and its revision
   * @param category as the operator's list has it
   * @param unit in what a category A item states its interval; else null
   * @param amount how many of it, seconds for hours; else null
   */
  public record Listed(
      String reference, String item, Category category, DeferralUnit unit, Long amount) {

    public static Listed of(String item, Category category) {
      return new Listed("Minimum equipment list, revision 1", item, category, null, null);
    }
  }

  /**
   * Without a list: made safe, placarded, not required, no hazard; until the next required
   * inspection.
   *
   * @param madeSafe {@code deactivated} or {@code removed}
   * @param notRequired why it is not required
   * @param noHazard why it is no hazard
   * @param noHazardBy who decided that
   * @param requirementId the inspection it is due with
   * @param componentId where that inspection is of a component; else null
   */
  public record Unlisted(
      String madeSafe,
      String notRequired,
      String noHazard,
      String noHazardBy,
      UUID requirementId,
      UUID componentId) {}

  /**
   * @param limitation the operating limitation, or ""
   * @param forbids what may not be flown with it: "IFR", "night"; or ""
   * @param placard what the placard says, or ""
   * @param maintenanceProcedure the reference of its (M) procedure, or ""
   * @param operationsProcedure the reference of its (O) procedure, or ""
   */
  public record Conditions(
      String limitation,
      String forbids,
      String placard,
      String placardPlace,
      String maintenanceProcedure,
      String operationsProcedure) {
    public static final Conditions NONE = new Conditions("", "", "", "", "", "");
  }

  public Route route() {
    return listed == null ? Route.NO_LIST : Route.MINIMUM_EQUIPMENT_LIST;
  }
}
