package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.web.Viewer;

/** Invented aircraft and parts for tests, made through the ordinary use cases. */
@ApplicationScoped
public class Hangar {
  @Inject public Fleet fleet;
  @Inject Components components;
  @Inject Fitments fitments;

  /** A single whose records begin at a moment, at 6,000 h and 2,000 landings. */
  public UUID single(Viewer viewer, String registration, Instant from) {
    return register(viewer, Particulars.of(registration, "Skerry 200", "S-1"), from);
  }

  public UUID register(Viewer viewer, Particulars particulars, Instant from) {
    return fleet.register(
        viewer,
        new Fleet.Registering(
            particulars,
            Position.single(),
            from,
            Map.of(Counter.HOURS, hours(6_000), Counter.LANDINGS, 2_000L),
            null));
  }

  /** An engine with what it had run since new and since overhaul, null where not known. */
  public UUID engine(Viewer viewer, String serial, Instant at, Long sinceNew, Long sinceOverhaul) {
    return components.register(
        viewer,
        new Components.Registering(
            PartKind.ENGINE,
            "TARN-360",
            serial,
            "Engine Tarn 360",
            "Tarn Works",
            at,
            Map.of(Counter.HOURS, new Components.Run(sinceNew, sinceOverhaul)),
            null,
            null,
            null));
  }

  /** A propeller, new at a moment. */
  public UUID propeller(Viewer viewer, String serial, Instant at) {
    return components.register(
        viewer,
        new Components.Registering(
            PartKind.PROPELLER,
            "FJ-72",
            serial,
            "Propeller Fjord 72",
            "Fjord Airscrews",
            at,
            Map.of(Counter.HOURS, new Components.Run(0L, 0L)),
            null,
            null,
            null));
  }

  /** A part that goes into an engine, new at a moment. */
  public UUID magneto(Viewer viewer, String partNumber, String serial, Instant at) {
    return components.register(
        viewer,
        new Components.Registering(
            PartKind.OTHER,
            partNumber,
            serial,
            "Magneto",
            "Skerry Electric",
            at,
            Map.of(Counter.HOURS, new Components.Run(0L, 0L)),
            viewer.dateOf(at),
            viewer.dateOf(at),
            null));
  }

  public UUID put(Viewer viewer, UUID component, UUID assembly, String place, Instant at) {
    return fitments.fit(viewer, new Fitments.Fit(component, Spot.in(assembly, place), at, null));
  }

  public UUID fit(Viewer viewer, UUID component, UUID aircraft, String position, Instant at) {
    return fitments.fit(viewer, new Fitments.Fit(component, aircraft, position, at, null));
  }

  public UUID remove(Viewer viewer, UUID fitment, Instant at) {
    return fitments.remove(viewer, new Fitments.Remove(fitment, at, "", true, null));
  }

  /** The removal by which a component came off last. */
  UUID removalOf(Viewer viewer, UUID component) {
    List<Placement> placements =
        components.history(viewer, component, View.EVERYTHING).placements();
    return placements.get(placements.size() - 1).removalId();
  }

  public static long hours(double hours) {
    return Math.round(hours * 3600);
  }
}
