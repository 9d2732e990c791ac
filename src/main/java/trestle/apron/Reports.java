package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.UUID;
import trestle.defects.DefectBook;
import trestle.defects.Defects;
import trestle.flights.JourneyLog;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What a pilot reports after a flight, filed whole or not at all. */
@ApplicationScoped
public class Reports {
  @Inject JourneyLog log;
  @Inject Defects defects;
  @Inject DefectBook book;

  /**
   * What the server answers for: it stands on disk when the caller hears of it.
   *
   * @param number of the flight in the operator's ledger; the same however often the form is sent
   * @param flightId the row of the journey log
   * @param disputed it disagrees with other records, and counts all the same
   */
  public record Received(long number, UUID flightId, boolean disputed) {}

  /**
   * Files a flight, and the defect that showed on it.
   *
   * @param formKey made when the form was opened: sent once or ten times it is filed once, and
   *     answers the same
   * @throws Refusal when the report is wrong in itself; nothing is filed then
   * @throws Stale when this form has filed something else already
   */
  @Filing
  public Received file(Viewer viewer, UUID aircraftId, Report report, UUID formKey) {
    JourneyLog.Logged logged =
        log.file(viewer, aircraftId, report.flight(), report.fluids(), formKey);
    if (logged.repeated()) {
      refuseOtherThanBefore(viewer, logged, report);
    }
    if (report.defect() != null) {
      defects.report(
          viewer, aircraftId, report.defect(), report.photos(), logged.entryId(), formKey);
    }
    return new Received(logged.ledgerSeq(), logged.id(), logged.isDisputed());
  }

  /** Sent again with a defect more or less; that it is the same defect, the defects see to. */
  private void refuseOtherThanBefore(Viewer viewer, JourneyLog.Logged logged, Report report) {
    boolean hadDefect = book.ofFlights(viewer, List.of(logged.entryId())).size() > 0;
    if (hadDefect != (report.defect() != null)) {
      throw new Stale(
          "This form has filed a report already, "
              + (hadDefect ? "with" : "without")
              + " a defect. Open a new form, or correct what it filed.");
    }
  }
}
