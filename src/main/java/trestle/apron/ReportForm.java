package trestle.apron;

import java.time.Instant;
import java.util.List;
import trestle.defects.DefectDraft;
import trestle.defects.DefectForm;
import trestle.flights.FlightDraft;
import trestle.flights.FlightForm;
import trestle.flights.FluidForm;
import trestle.web.Form;
import trestle.web.Option;

/** Reads a report after a flight: the flight, and what was wrong, if anything. */
public final class ReportForm {
  private static final String WRONG = "anything-wrong";
  private static final String NOTHING = "nothing";
  private static final String DEFECT = "defect";

  private final FlightForm flight;
  private final DefectForm defect;
  private final Form form;

  ReportForm(FlightForm flight, DefectForm defect) {
    this.flight = flight;
    this.defect = defect;
    this.form = flight.form();
  }

  public Form form() {
    return form;
  }

  public FlightForm flight() {
    return flight;
  }

  public DefectForm defect() {
    return defect;
  }

  /** Neither is chosen beforehand: that there is nothing to report is for a person to say. */
  public List<Option> wrongs() {
    return List.of(new Option(NOTHING, "Nothing to report"), new Option(DEFECT, "Report a defect"));
  }

  /** Whether nothing is wrong with it but that fuel or oil disagrees with what was flown. */
  boolean onlyAsks() {
    return form.errors().size() == 1
        && form.isBad(FluidForm.REMARK)
        && form.value(FluidForm.REMARK).isBlank();
  }

  /** Whether a defect is to be reported, as chosen so far. */
  boolean saysDefect() {
    return form.has(WRONG, DEFECT);
  }

  /**
   * The report without its photos, or null with the reasons noted in the form.
   *
   * @param flown the flight as read already, or null where it can't be read
   * @param now for a defect of such a flight
   */
  Report read(FlightDraft flown, Instant now) {
    if (form.value(WRONG).isEmpty()) {
      form.fail(WRONG, "Say whether anything was wrong, or that there is nothing to report.");
    }
    form.optional(WRONG, "Anything wrong").choice(NOTHING, DEFECT);
    DefectDraft found = saysDefect() ? defect.read(flown == null ? now : flown.landing()) : null;
    return form.isBad() ? null : new Report(flown, flight.found(), found, List.of());
  }
}
