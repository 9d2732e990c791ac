package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** A person grounds an aircraft, and a person lifts it. */
@ApplicationScoped
public class Groundings {
  @Inject AircraftRepository repository;
  @Inject Revisions revisions;
  @Inject Filings filings;

  /** A person grounds the aircraft. */
  @Filing
  public UUID ground(Viewer viewer, UUID aircraftId, String why, UUID formKey) {
    if (why.isBlank()) {
      throw new Refusal("why", "Why is needed: say what must be seen to before it flies.");
    }
    revisions.bump(viewer, aircraftId);
    var before = repository.ofForm(Grounding.class, formKey);
    if (before.isPresent()) {
      return before.get().id();
    }
    return file(viewer, aircraftId, why, null, formKey).id();
  }

  /** A person lifts a grounding. */
  @Filing
  public void lift(Viewer viewer, UUID aircraftId, UUID groundingId, String why) {
    if (why.isBlank()) {
      throw new Refusal("why", "Why is needed: say what was done.");
    }
    revisions.bump(viewer, aircraftId);
    boolean stands =
        repository.standingGroundings(List.of(aircraftId), filings.now(viewer)).stream()
            .anyMatch(grounding -> grounding.id().equals(groundingId));
    if (!stands) {
      throw new Stale("This grounding was lifted already.");
    }
    file(viewer, aircraftId, why, groundingId, null);
  }

  /** A person's grounding, or (with {@code lifts}) the end of one. */
  public record GroundingSheet(
      UUID id, UUID aircraftId, String why, Instant at, LocalDate on, UUID by, UUID lifts) {}

  /** The groundings that stand in the view, by aircraft; an aircraft without any is left out. */
  @Reading
  public Map<UUID, List<GroundingSheet>> standing(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<GroundingSheet>> standing = new HashMap<>();
    if (!aircraftIds.isEmpty()) {
      for (Grounding row : repository.standingGroundings(aircraftIds, view)) {
        standing.computeIfAbsent(row.aircraftId, id -> new ArrayList<>()).add(sheet(row));
      }
    }
    return standing;
  }

  /** Every grounding and lifting of one aircraft, the newest first. */
  @Reading
  public List<GroundingSheet> history(Viewer viewer, UUID aircraftId, View view) {
    return repository.groundings(aircraftId, view).stream().map(Groundings::sheet).toList();
  }

  private static GroundingSheet sheet(Grounding row) {
    return new GroundingSheet(
        row.id(),
        row.aircraftId,
        row.why,
        row.happenedAt(),
        row.happenedOn(),
        row.recordedBy(),
        row.lifts);
  }

  private Grounding file(Viewer viewer, UUID aircraftId, String why, UUID lifts, UUID formKey) {
    Grounding row = new Grounding();
    row.aircraftId = aircraftId;
    row.why = why.strip();
    row.lifts = lifts;
    row.happened(filings.instant(), filings.today(viewer));
    row.fromForm(formKey);
    filings.file(viewer, row);
    return row;
  }
}
