package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Special flight permits: an authority allows an aircraft that is held to be flown on conditions,
 * until a day. Until then its standing is limited to them; what holds it is still listed.
 */
@ApplicationScoped
public class FlightPermits {
  @Inject WorkRepository repository;
  @Inject ReleaseRepository closed;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  public record NewPermit(
      UUID aircraftId,
      String number,
      String issuedBy,
      String conditions,
      LocalDate firstDay,
      LocalDate lastDay) {}

  public record Permit(
      UUID id,
      UUID aircraftId,
      String number,
      String issuedBy,
      String conditions,
      LocalDate firstDay,
      LocalDate lastDay) {

    public boolean holdsOn(LocalDate day) {
      return !day.isBefore(firstDay) && !day.isAfter(lastDay);
    }
  }

  @Filing
  public UUID file(Viewer viewer, NewPermit asked, UUID formKey) {
    mayFile(viewer);
    revisions.bump(viewer, asked.aircraftId());
    FlightPermit before = repository.ofForm(FlightPermit.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    check(asked);
    Instant now = clock.instant();
    FlightPermit row = new FlightPermit();
    row.aircraftId = asked.aircraftId();
    row.number = asked.number().strip();
    row.issuedBy = asked.issuedBy().strip();
    row.conditions = asked.conditions().strip();
    row.firstDay = asked.firstDay();
    row.lastDay = asked.lastDay();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
    return row.id();
  }

  /** The permit no longer holds: it was given back, or filed by mistake. */
  @Filing
  public void end(Viewer viewer, UUID permitId, String reason, UUID formKey) {
    mayFile(viewer);
    FlightPermit original = one(permitId);
    revisions.bump(viewer, original.aircraftId);
    if (repository.ofForm(FlightPermit.class, formKey).isPresent()) {
      return;
    }
    if (reason == null || reason.isBlank() || reason.length() > 500) {
      throw new Refusal("reason", "Reason is needed, in at most 500 characters.");
    }
    if (original.voided != null || repository.isCorrected(FlightPermit.class, permitId)) {
      throw new Stale("Someone ended this permit meanwhile.");
    }
    Instant now = clock.instant();
    FlightPermit row = new FlightPermit();
    row.aircraftId = original.aircraftId;
    row.number = original.number;
    row.issuedBy = original.issuedBy;
    row.conditions = original.conditions;
    row.firstDay = original.firstDay;
    row.lastDay = original.lastDay;
    row.voided = true;
    row.happened(now, viewer.dateOf(now));
    row.correct(permitId, reason.strip());
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
  }

  /** The permits of an aircraft that were not ended, the latest last. */
  @Reading
  public List<Permit> of(Viewer viewer, UUID aircraftId) {
    return closed.permits(List.of(aircraftId), View.EVERYTHING).stream()
        .map(FlightPermits::permit)
        .toList();
  }

  @Reading
  public Permit one(Viewer viewer, UUID permitId) {
    return permit(one(permitId));
  }

  static Permit permit(FlightPermit row) {
    return new Permit(
        row.id(),
        row.aircraftId,
        row.number,
        row.issuedBy,
        row.conditions,
        row.firstDay,
        row.lastDay);
  }

  private FlightPermit one(UUID id) {
    return repository
        .row(FlightPermit.class, id)
        .orElseThrow(() -> new NotHere("There is no such permit here."));
  }

  private static void mayFile(Viewer viewer) {
    if (!viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)) {
      throw new Refusal("", "Permits are filed by owners, controllers and engineers.");
    }
  }

  private static void check(NewPermit asked) {
    List<Refusal.Reason> faults = new ArrayList<>();
    need(faults, "number", "Number", asked.number(), 60);
    need(faults, "issued-by", "Issued by", asked.issuedBy(), 120);
    need(faults, "conditions", "Conditions", asked.conditions(), 1_000);
    if (asked.lastDay().isBefore(asked.firstDay())) {
      faults.add(new Refusal.Reason("last-day", "Last day must not be before the first."));
    }
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  private static void need(
      List<Refusal.Reason> faults, String field, String label, String value, int most) {
    if (value == null || value.isBlank() || value.length() > most) {
      faults.add(
          new Refusal.Reason(field, label + " must be said, in at most " + most + " characters."));
    }
  }
}
