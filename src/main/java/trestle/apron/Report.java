package trestle.apron;

import java.util.List;
import trestle.defects.DefectDraft;
import trestle.defects.PhotoDraft;
import trestle.flights.FlightDraft;
import trestle.flights.FluidDraft;

/**
 * What a pilot reports after a flight.
 *
 * @param fluids what was found of fuel and oil, or null where nothing was read
 * @param defect null where there was nothing to report
 * @param photos of the defect
 */
public record Report(
    FlightDraft flight, FluidDraft fluids, DefectDraft defect, List<PhotoDraft> photos) {
  public Report {
    photos = List.copyOf(photos);
  }
}
