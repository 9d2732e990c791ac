package trestle.apron;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import trestle.fleet.AircraftSheet;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.Standing;
import trestle.standing.Subject;

/**
 * Whether anything recorded on one aircraft runs out on a trip: on which leg, and why. Worked out
 * from what falls due, already reckoned, and from the trip alone.
 *
 * @param findings those against it first, each sort in the order of the legs
 */
record TripCheck(AircraftSheet sheet, Standing standing, List<TripFinding> findings) {

  /** In the order in which a fleet is listed. */
  enum Verdict {
    LASTS,
    UNKNOWN,
    RUNS_OUT,
    HELD
  }

  TripCheck {
    findings = List.copyOf(findings);
  }

  static TripCheck of(AircraftStanding aircraft, List<Restriction> restrictions, Trip trip) {
    List<DueItem> items = aircraft.items();
    Checking checking =
        new Checking(
            trip,
            Lasting.toTolerance(trip, items),
            Lasting.toDue(trip, items),
            new TripWords(aircraft.sheet().shownAs(), trip));
    List<TripFinding> findings = new ArrayList<>();
    for (Restriction restriction : restrictions) {
      if (trip.kinds().contains(restriction.forbids())) {
        findings.add(checking.forbidden(restriction));
      }
    }
    for (DueItem item : items) {
      if (trip.isForbiddenBy(item.forbids())) {
        checking.add(item, findings);
      }
    }
    findings.sort(Comparator.comparing(TripFinding::weight).thenComparing(TripFinding::leg));
    return new TripCheck(aircraft.sheet(), aircraft.standing(), findings);
  }

  public Verdict verdict() {
    if (standing.isHeld()) {
      return Verdict.HELD;
    }
    if (findings.stream().anyMatch(TripFinding::isAgainst)) {
      return Verdict.RUNS_OUT;
    }
    return findings.stream().anyMatch(TripFinding::isUnknown) ? Verdict.UNKNOWN : Verdict.LASTS;
  }

  public boolean lasts() {
    return verdict() == Verdict.LASTS;
  }

  /** The answer in one line. */
  public String words() {
    return switch (verdict()) {
      case LASTS -> "Nothing recorded runs out on this trip.";
      case UNKNOWN -> "Nothing known runs out on this trip, but not all of it can be told.";
      case RUNS_OUT -> against();
      case HELD -> "It is held: do not fly it.";
    };
  }

  /** How a list of aircraft shows the standing of one for this trip. */
  public String mark() {
    return switch (verdict()) {
      case LASTS -> "clear";
      case UNKNOWN -> "unknown";
      case RUNS_OUT -> "limited";
      case HELD -> "held";
    };
  }

  private String against() {
    int leg = findings.get(0).leg();
    return leg <= 1 ? "It may not fly this trip." : "It does not last: see leg " + leg + ".";
  }

  private record Checking(Trip trip, Lasting lasting, Lasting due, TripWords words) {

    /** What holds the aircraft already is among the reasons of its standing, and not said twice. */
    void add(DueItem item, List<TripFinding> findings) {
      int out = lasting.out(item);
      if (out > 0) {
        if (!item.isMandatory()) {
          findings.add(finding(TripFinding.Weight.ADVICE, out, item, advice(item, out)));
        } else if (!item.reckoning().spent() || !item.forbidsAnyFlight()) {
          findings.add(finding(TripFinding.Weight.AGAINST, out, item, runsOut(item, out)));
        }
      } else if (!item.isMandatory()) {
        return;
      } else if (lasting.isUnknown(item)) {
        findings.add(finding(TripFinding.Weight.UNKNOWN, 0, item, words.unknown(item, lasting)));
      } else if (due.out(item) > 0) {
        int leg = due.out(item);
        findings.add(
            finding(TripFinding.Weight.TOLERANCE, leg, item, words.inTolerance(item, leg)));
      }
    }

    TripFinding forbidden(Restriction restriction) {
      return new TripFinding(
          TripFinding.Weight.AGAINST,
          1,
          restriction.what(),
          restriction.about(),
          restriction.link());
    }

    private String runsOut(DueItem item, int leg) {
      String from = item.forbidsAnyFlight() ? "" : ", from there " + words.not(item.forbids());
      return " runs out on leg " + leg + from + ": " + words.why(item, lasting, leg) + ".";
    }

    private String advice(DueItem item, int leg) {
      return ", which is recommended, runs out on leg "
          + leg
          + ": "
          + words.why(item, lasting, leg)
          + ".";
    }

    private static TripFinding finding(
        TripFinding.Weight weight, int leg, DueItem item, String about) {
      return new TripFinding(weight, leg, what(item), about, item.link());
    }

    private static String what(DueItem item) {
      Subject subject = item.subject();
      return subject.isAircraft() ? item.title() : item.title() + " (" + subject.words() + ")";
    }
  }
}
