package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.UUID;
import trestle.web.Filing;
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
