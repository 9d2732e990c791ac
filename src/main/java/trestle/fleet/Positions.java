package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** Where serial-numbered parts belong on each aircraft. */
@ApplicationScoped
public class Positions {
  @Inject AircraftRepository repository;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Revisions revisions;
  @Inject Filings filings;

  /** States a position of the aircraft, new or changed; positions keep their code. */
  @Filing
  public void setPosition(Viewer viewer, UUID aircraftId, Position position, UUID formKey) {
    Filings.refuse(position.faults());
    revisions.bump(viewer, aircraftId);
    if (repository.ofForm(PositionRow.class, formKey).isPresent()) {
      return;
    }
    fitted(viewer, aircraftId, position.code())
        .filter(fitting -> fitting.kind() != position.kind())
        .ifPresent(
            fitting -> {
              throw new Refusal(
                  "kind", "Kind can't change while " + fitting.description() + " is fitted there.");
            });
    filePosition(viewer, aircraftId, position, false, formKey);
  }

  /** The aircraft no longer has this position. Refused while something is fitted there. */
  @Filing
  public void withdrawPosition(Viewer viewer, UUID aircraftId, String code) {
    revisions.bump(viewer, aircraftId);
    Position position =
        fleet.positions(viewer, aircraftId, filings.now(viewer)).stream()
            .filter(at -> at.code().equals(code))
            .findFirst()
            .orElseThrow(() -> new NotHere("This aircraft has no such position."));
    fitted(viewer, aircraftId, code)
        .ifPresent(
            fitting -> {
              throw new Refusal(
                  "code",
                  "Remove " + fitting.description() + " first: it is fitted in this position.");
            });
    filePosition(viewer, aircraftId, position, true, null);
  }

  private Optional<Fitting> fitted(Viewer viewer, UUID aircraftId, String code) {
    return components
        .fittings(viewer, List.of(aircraftId), filings.now(viewer))
        .getOrDefault(aircraftId, List.of())
        .stream()
        .filter(fitting -> fitting.isFitted() && fitting.positionCode().equals(code))
        .findFirst();
  }

  private void filePosition(
      Viewer viewer, UUID aircraftId, Position position, boolean withdrawn, UUID formKey) {
    PositionRow row = PositionRow.of(aircraftId, position, withdrawn);
    row.happened(filings.instant(), filings.today(viewer));
    row.fromForm(formKey);
    filings.file(viewer, row);
  }
}
