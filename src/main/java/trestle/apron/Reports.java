package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.UUID;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What a pilot reports after a flight, filed whole or not at all. */
@ApplicationScoped
public class Reports {
  @Inject JourneyLog log;

  /**
   * What the server answers for: it stands on disk when the caller hears of it.
   *
   * @param number of the flight in the operator's ledger; the same however often the form is sent
   * @param flightId the row of the journey log
   * @param disputed it disagrees with other records, and counts all the same
   */
  public record Received(long number, UUID flightId, boolean disputed) {}

  /**
   * Files a flight.
   *
   * @param formKey made when the form was opened: sent once or ten times it is filed once, and
   *     answers the same
   * @throws Refusal when the report is wrong in itself; nothing is filed then
   * @throws Stale when this form has filed something else already
   */
  @Filing
  public Received file(Viewer viewer, UUID aircraftId, FlightDraft flight, UUID formKey) {
    JourneyLog.Logged logged = log.file(viewer, aircraftId, flight, formKey);
    return new Received(logged.ledgerSeq(), logged.id(), logged.isDisputed());
  }
}
