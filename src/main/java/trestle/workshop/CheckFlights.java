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
import trestle.ledger.Rows;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Check flights after releases that ask for one (14 CFR 91.407(b)): crew only until a pilot has
 * logged one that was satisfactory.
 */
@ApplicationScoped
public class CheckFlights {
  @Inject WorkRepository repository;
  @Inject ReleaseRepository closed;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject Rows rows;
  @Inject InstantSource clock;

  /** A check flight as it was logged. */
  public record Checked(
      String words, boolean satisfactory, String pilotName, LocalDate on, UUID id) {}

  /**
   * Logs a check flight.
   *
   * @param words how it went
   * @return the record's id
   */
  @Filing
  public UUID log(
      Viewer viewer, UUID releaseId, String words, boolean satisfactory, Instant at, UUID formKey) {
    WorkRelease release =
        repository
            .row(WorkRelease.class, releaseId)
            .orElseThrow(() -> new NotHere("There is no such release here."));
    revisions.bump(viewer, release.aircraftId);
    CheckFlight before = repository.ofForm(CheckFlight.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    if (!viewer.is(Role.PILOT)) {
      throw new Refusal("", "A pilot logs a check flight.");
    }
    if (release.checkFlight.isEmpty()) {
      throw new Refusal("", "No check flight is asked for.");
    }
    if (words == null || words.isBlank() || words.length() > 2_000) {
      throw new Refusal("words", "How it went must be said, in at most 2,000 characters.");
    }
    if (at.isAfter(clock.instant()) || at.isBefore(release.happenedAt())) {
      throw new Refusal("on", "The flight must be after the release, and not in the future.");
    }
    boolean made =
        closed.checkFlights(List.of(releaseId), View.EVERYTHING).stream()
            .anyMatch(one -> one.satisfactory);
    if (made) {
      throw new Stale("The check flight was logged meanwhile. Nothing was filed.");
    }
    CheckFlight row = new CheckFlight();
    row.afterVoided = rows.lastRevoking(CheckFlight.class, "releaseId", releaseId);
    row.aircraftId = release.aircraftId;
    row.releaseId = releaseId;
    row.words = words.strip();
    row.satisfactory = satisfactory;
    row.pilotName = viewer.personName();
    row.happened(at, viewer.dateOf(at));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
    return row.id();
  }

  /** The check flights logged after a release, the first first. */
  @Reading
  public List<Checked> of(Viewer viewer, UUID releaseId) {
    List<Checked> all = new ArrayList<>();
    for (CheckFlight row : closed.checkFlights(List.of(releaseId), View.EVERYTHING)) {
      all.add(new Checked(row.words, row.satisfactory, row.pilotName, row.happenedOn(), row.id()));
    }
    return all;
  }
}
