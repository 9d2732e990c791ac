package trestle.programme;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.reckoning.Rule;
import trestle.standing.DueItem;
import trestle.standing.Force;

/**
 * What a requirement says.
 *
 * @param effectiveOn the day named by the origin {@code effective}
 * @param forbids what may not be flown once it is spent: "any flight", or words such as "hire"
 * @param covers the requirements that a complete doing of this one also does
 * @param toleranceCondition the tolerance's own condition, or ""
 * @param toleranceSource the text of a directive or limitation that itself gives the tolerance
 * @param sourceReference where it is written
 * @param labourMinutes estimated, or null
 * @param downtimeHours estimated, or null
 * @param where on which aircraft, by a modification that is embodied there or not
 */
public record Terms(
    String title,
    RequirementKind kind,
    Rule rule,
    LocalDate effectiveOn,
    Force force,
    String forbids,
    List<UUID> covers,
    String toleranceCondition,
    String toleranceSource,
    String sourceReference,
    Integer labourMinutes,
    Integer downtimeHours,
    Presence where) {

  public Terms {
    covers = List.copyOf(covers);
  }

  /** Terms with nothing but what must be said; a mandatory requirement that forbids any flight. */
  public static Terms of(String title, RequirementKind kind, Rule rule, LocalDate effectiveOn) {
    return new Terms(
        title,
        kind,
        rule,
        effectiveOn,
        Force.MANDATORY,
        DueItem.ANY_FLIGHT,
        List.of(),
        "",
        "",
        "",
        null,
        null,
        Presence.ANYWHERE);
  }

  public Terms covering(UUID... requirements) {
    return new Terms(
        title,
        kind,
        rule,
        effectiveOn,
        force,
        forbids,
        List.of(requirements),
        toleranceCondition,
        toleranceSource,
        sourceReference,
        labourMinutes,
        downtimeHours,
        where);
  }

  public Terms withRule(Rule other) {
    return new Terms(
        title,
        kind,
        other,
        effectiveOn,
        force,
        forbids,
        covers,
        toleranceCondition,
        toleranceSource,
        sourceReference,
        labourMinutes,
        downtimeHours,
        where);
  }

  public Terms forbidding(String what) {
    return new Terms(
        title,
        kind,
        rule,
        effectiveOn,
        force,
        what,
        covers,
        toleranceCondition,
        toleranceSource,
        sourceReference,
        labourMinutes,
        downtimeHours,
        where);
  }

  public Terms withForce(Force other) {
    return new Terms(
        title,
        kind,
        rule,
        effectiveOn,
        other,
        forbids,
        covers,
        toleranceCondition,
        toleranceSource,
        sourceReference,
        labourMinutes,
        downtimeHours,
        where);
  }

  public Terms withTolerance(String condition, String source) {
    return new Terms(
        title,
        kind,
        rule,
        effectiveOn,
        force,
        forbids,
        covers,
        condition,
        source,
        sourceReference,
        labourMinutes,
        downtimeHours,
        where);
  }

  public Terms from(String reference, Integer labour, Integer downtime) {
    return new Terms(
        title,
        kind,
        rule,
        effectiveOn,
        force,
        forbids,
        covers,
        toleranceCondition,
        toleranceSource,
        reference,
        labour,
        downtime,
        where);
  }

  /** Only on aircraft that have a modification, or only on those that have it not. */
  public Terms only(Presence other) {
    return new Terms(
        title,
        kind,
        rule,
        effectiveOn,
        force,
        forbids,
        covers,
        toleranceCondition,
        toleranceSource,
        sourceReference,
        labourMinutes,
        downtimeHours,
        other);
  }
}
