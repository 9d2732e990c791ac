package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.Fleet.OpeningSheet;
import trestle.fleet.FuelUnit;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.web.Form;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * What every page shows that takes the report of a flight: the form, what it begins with, hints.
 */
@ApplicationScoped
public class FlightForms {
  @Inject Flights flights;
  @Inject UsageLines lines;
  @Inject FuelAndOil fluids;
  @Inject Fleet fleet;
  @Inject InstantSource clock;

  /**
   * A form for the next flight of an aircraft: today, by whoever asks, from where the last landed.
   *
   * @param after the flight just filed, when this is its next sector; else null
   */
  public FlightForm blank(Viewer viewer, AircraftSheet aircraft, UUID after) {
    Form form =
        Form.blank()
            .with("date", Shown.date(clock.instant().atZone(viewer.flightZone()).toLocalDate()))
            .with("landings", "1")
            .with("commander", viewer.personName());
    FlightSheet last = last(viewer, aircraft);
    if (last != null) {
      form.with("from", last.flight().to());
      if (last.id().equals(after)) {
        followOn(viewer, form, aircraft, last);
      }
    }
    return of(viewer, aircraft, form);
  }

  /** A form as posted, or filled in beforehand. */
  public FlightForm of(Viewer viewer, AircraftSheet aircraft, Form form) {
    return of(viewer, aircraft, form, fluids.arrangement(viewer, aircraft.id(), now(viewer)));
  }

  /** The form that corrects a flight: what was read of fuel and oil is corrected by itself. */
  FlightForm ofCorrection(Viewer viewer, AircraftSheet aircraft, Form form) {
    FuelUnit unit = FuelUnit.parse(aircraft.particulars().fuelUnit());
    return of(viewer, aircraft, form, FluidArrangement.none(unit));
  }

  private FlightForm of(
      Viewer viewer, AircraftSheet aircraft, Form form, FluidArrangement arrangement) {
    return new FlightForm(
        form,
        viewer.flightZone(),
        clock.instant().atZone(viewer.flightZone()).toLocalDate(),
        aircraft,
        counted(viewer, aircraft.id()),
        fleet.positions(viewer, aircraft.id(), now(viewer)),
        arrangement,
        arrangement.isStated() ? fluids.state(viewer, aircraft.id(), now(viewer)) : null);
  }

  /**
   * Reads the report, and asks about fuel and oil that disagree with what was flown until the
   * person has said a word on it.
   *
   * @param defect whether a defect is reported with it, which answers as well
   * @return null with the reasons noted in the form
   */
  public FlightDraft read(Viewer viewer, AircraftSheet aircraft, FlightForm form, boolean defect) {
    FlightDraft flight = form.read();
    if (flight != null && form.found() != null) {
      form.fluids()
          .ask(fluids.questions(viewer, aircraft.id(), flight, form.found()), form.found(), defect);
    }
    return flight;
  }

  /** "6,482.6 h", or "not known". */
  public String totalBefore(Viewer viewer, AircraftSheet aircraft) {
    return words(viewer, aircraft).total(lines.of(viewer, aircraft.id(), now(viewer)));
  }

  public FlightHints hints(Viewer viewer, AircraftSheet aircraft) {
    return words(viewer, aircraft).hints(last(viewer, aircraft));
  }

  /** The next sector begins where and as the last one ended, minutes ago and by the same hand. */
  private static void followOn(Viewer viewer, Form form, AircraftSheet aircraft, FlightSheet last) {
    FlightDraft before = last.flight();
    form.with("date", Shown.date(before.landing().atZone(viewer.flightZone()).toLocalDate()))
        .with("commander", before.commander());
    if (aircraft.particulars().hasMeter() && before.meterIn() != null) {
      form.with("meter-out", new Hours(before.meterIn()));
    }
    if (before.fuelLeft() != null) {
      form.with("fuel-added", "0");
    }
  }

  private FlightSheet last(Viewer viewer, AircraftSheet aircraft) {
    return flights.last(viewer, aircraft.id()).orElse(null);
  }

  private List<Counter> counted(Viewer viewer, UUID aircraftId) {
    return fleet
        .openings(viewer, List.of(aircraftId), now(viewer))
        .getOrDefault(aircraftId, List.of())
        .stream()
        .map(OpeningSheet::counter)
        .distinct()
        .sorted()
        .toList();
  }

  private FlightWords words(Viewer viewer, AircraftSheet aircraft) {
    return new FlightWords(aircraft, viewer.flightZone(), today(viewer));
  }

  private View now(Viewer viewer) {
    return View.asAt(today(viewer));
  }

  private LocalDate today(Viewer viewer) {
    return viewer.dateOf(clock.instant());
  }
}
