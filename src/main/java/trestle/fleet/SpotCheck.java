package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Predicate;
import trestle.ledger.View;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** Whether a component may be put somewhere; each refusal says why not, in a sentence. */
@ApplicationScoped
class SpotCheck {
  @Inject Components components;
  @Inject Parts parts;
  @Inject Fleet fleet;

  /** By what it is: its kind, its part number, its state, and what it would sit in. */
  void refuseUnfit(Viewer viewer, ComponentHistory component, Spot spot, Instant at) {
    refuseBeforeNew(viewer, component, at, "Fitted");
    refuseState(component, at);
    if (spot.isInComponent()) {
      refuseInComponent(viewer, component, spot, at);
    } else {
      refuseOnAircraft(viewer, component.sheet(), spot);
    }
  }

  /** A moment must not come before the part was made. */
  void refuseBeforeNew(Viewer viewer, ComponentHistory component, Instant at, String label) {
    LocalDate newOn = component.newOn();
    if (newOn != null && viewer.dateOf(at).isBefore(newOn)) {
      throw new Refusal("on", label + " must not be before it was new, " + newOn + ".");
    }
  }

  /** It must be nowhere else from that moment on. */
  void refusePlacedFrom(Viewer viewer, ComponentHistory component, Instant at) {
    for (Placement each : component.placements()) {
      if (each.meets(at, null)) {
        throw new Refusal(
            "place",
            "It is fitted to " + words(viewer, each) + " then or later: remove it there first.");
      }
    }
  }

  /** Nothing else must be there from that moment on. */
  void refuseTakenFrom(Viewer viewer, Spot spot, Instant at) {
    other(viewer, spot, each -> each.meets(at, null))
        .ifPresent(
            other -> {
              throw new Refusal(
                  "place",
                  label(viewer, spot)
                      + " is taken then or later by "
                      + other.description()
                      + ", serial "
                      + other.serial()
                      + ": remove that first.");
            });
  }

  /** A placement moved in time must meet no other of the component, and none in its place. */
  void refuseMeeting(Viewer viewer, Placement moved, Instant from, Instant to) {
    ComponentHistory component = components.history(viewer, moved.componentId(), View.EVERYTHING);
    for (Placement each : component.placements()) {
      if (!each.fitmentId().equals(moved.fitmentId()) && each.meets(from, to)) {
        throw new Refusal("on", "It was fitted elsewhere then.");
      }
    }
    Spot spot = Spot.of(moved);
    other(viewer, spot, each -> !each.fitmentId().equals(moved.fitmentId()) && each.meets(from, to))
        .ifPresent(
            other -> {
              throw new Refusal(
                  "on", label(viewer, spot) + " was taken then by serial " + other.serial() + ".");
            });
    if (spot.isInComponent()) {
      refuseCircle(viewer, component.sheet(), spot.assemblyId(), from, "on");
    }
  }

  /** "QX-ABC (Engine 1, left)", or "Engine, part E, serial 7 (left magneto)". */
  String words(Viewer viewer, Placement placement) {
    if (placement.isInComponent()) {
      return sheet(viewer, placement.assemblyId()).words() + " (" + placement.place() + ")";
    }
    return fleet.sheet(viewer, placement.aircraftId(), View.EVERYTHING).registration()
        + " ("
        + label(viewer, Spot.of(placement))
        + ")";
  }

  private static void refuseState(ComponentHistory component, Instant at) {
    String why =
        switch (component.stateAt(at)) {
          case RETIRED -> "It was retired: a retired part is not fitted again.";
          case AWAY -> "It was sent out and had not returned by then: file its return first.";
          case UNSERVICEABLE ->
              "It was found unserviceable: file that it is serviceable before it is fitted.";
          case FITTED, IN_STORE -> null;
        };
    if (why != null) {
      throw new Refusal("on", why);
    }
  }

  private void refuseOnAircraft(Viewer viewer, ComponentSheet component, Spot spot) {
    Position position = position(viewer, spot);
    if (position.kind() != component.kind()) {
      throw new Refusal(
          "place",
          position.label()
              + " takes a part of kind "
              + position.kind().word()
              + "; "
              + component.words()
              + " is of kind "
              + component.kind().word()
              + ".");
    }
    String type = fleet.sheet(viewer, spot.aircraftId(), View.EVERYTHING).particulars().typeName();
    refuseVariant(viewer, component, type, position.code(), position.label());
  }

  private void refuseInComponent(Viewer viewer, ComponentHistory component, Spot spot, Instant at) {
    if (component.sheet().kind() != PartKind.OTHER) {
      throw new Refusal(
          "place",
          "An engine or a propeller is fitted to a position of an aircraft, not into a part.");
    }
    if (spot.place().isEmpty() || spot.place().length() > 60) {
      throw new Refusal("assembly-place", "Place in the part must be 1 to 60 characters.");
    }
    ComponentHistory assembly = components.history(viewer, spot.assemblyId(), View.EVERYTHING);
    if (assembly.stateAt(at) == ComponentState.RETIRED) {
      throw new Refusal("place", assembly.sheet().words() + " was retired.");
    }
    refuseCircle(viewer, component.sheet(), spot.assemblyId(), at, "place");
    refuseVariant(
        viewer, component.sheet(), assembly.sheet().partNumber(), spot.place(), spot.place());
  }

  private void refuseVariant(
      Viewer viewer, ComponentSheet component, String holder, String spot, String spotWords) {
    String refusal =
        parts
            .of(viewer, component.partNumber(), View.EVERYTHING)
            .map(sheet -> sheet.refusal(holder, spot, spotWords))
            .orElse(null);
    if (refusal != null) {
      throw new Refusal("place", refusal);
    }
  }

  private void refuseCircle(
      Viewer viewer, ComponentSheet component, UUID assembly, Instant from, String field) {
    boolean circle =
        assembly.equals(component.id())
            || components.around(viewer, assembly, View.EVERYTHING).stream()
                .anyMatch(
                    each -> component.id().equals(each.assemblyId()) && each.meets(from, null));
    if (circle) {
      throw new Refusal(
          field,
          "That would go round in a circle: "
              + sheet(viewer, assembly).words()
              + (assembly.equals(component.id())
                  ? " can’t sit in itself."
                  : " sits in this part."));
    }
  }

  private Optional<ComponentSheet> other(Viewer viewer, Spot spot, Predicate<Placement> which) {
    List<Placement> there =
        components.inside(viewer, spot.holder(), View.EVERYTHING).stream()
            .filter(each -> each.isSameSpot(spot.holder(), spot.name()))
            .filter(which)
            .toList();
    return there.isEmpty()
        ? Optional.empty()
        : Optional.of(sheet(viewer, there.get(there.size() - 1).componentId()));
  }

  private String label(Viewer viewer, Spot spot) {
    return spot.isInComponent()
        ? spot.place()
        : found(viewer, spot).map(Position::label).orElse(spot.positionCode());
  }

  private Position position(Viewer viewer, Spot spot) {
    return found(viewer, spot)
        .orElseThrow(() -> new Refusal("place", "Position must be one of this aircraft's."));
  }

  private Optional<Position> found(Viewer viewer, Spot spot) {
    return fleet.positions(viewer, spot.aircraftId(), View.EVERYTHING).stream()
        .filter(position -> position.code().equals(spot.positionCode()))
        .findFirst();
  }

  private ComponentSheet sheet(Viewer viewer, UUID componentId) {
    return components.history(viewer, componentId, View.EVERYTHING).sheet();
  }
}
