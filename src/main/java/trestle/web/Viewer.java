package trestle.web;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.Set;
import java.util.UUID;

/**
 * Who is asking, and in which operator. Every use case takes one as its first argument: the walls
 * of its transaction are set from it.
 *
 * @param operatorId null for an administrator who has chosen no operator
 * @param zone the operator's one time zone
 * @param timesInUtc whether flight times are typed and shown in UTC (else in the operator's zone)
 */
public record Viewer(
    UUID personId,
    String personName,
    boolean administrator,
    UUID operatorId,
    String operatorName,
    ZoneId zone,
    boolean timesInUtc,
    Set<Role> roles) {

  public Viewer {
    roles = Set.copyOf(roles);
  }

  public boolean is(Role role) {
    return roles.contains(role);
  }

  public boolean isAny(Role... any) {
    for (Role role : any) {
      if (roles.contains(role)) {
        return true;
      }
    }
    return false;
  }

  /** The operator's local date of an instant: what "today" and every stated date mean. */
  public LocalDate dateOf(Instant instant) {
    return instant.atZone(zone).toLocalDate();
  }

  /** The zone in which this operator types and shows flight times. */
  public ZoneId flightZone() {
    return timesInUtc ? ZoneId.of("UTC") : zone;
  }

  /** How times of flights are meant that a form asks for: "UTC" or "local time". */
  public String flightTimes() {
    return timesInUtc ? "UTC" : "local time";
  }
}
