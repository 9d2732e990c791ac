package trestle.apron;

import java.util.List;
import trestle.defects.DefectDraft;
import trestle.defects.PhotoDraft;
import trestle.flights.FlightDraft;

/**
 * What a pilot reports after a flight.
 *
 * @param defect null where there was nothing to report
 * @param photos of the defect
 */
public record Report(FlightDraft flight, DefectDraft defect, List<PhotoDraft> photos) {
  public Report {
    photos = List.copyOf(photos);
  }

  /** A flight with nothing to report. */
  public static Report of(FlightDraft flight) {
    return new Report(flight, null, List.of());
  }
}
