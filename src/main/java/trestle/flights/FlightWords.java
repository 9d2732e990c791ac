package trestle.flights;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.CounterWords;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.Scale;
import trestle.web.Shown;

/** Flights of one aircraft in words. */
final class FlightWords {
  private final AircraftSheet aircraft;
  private final ZoneId zone;
  private final LocalDate today;

  FlightWords(AircraftSheet aircraft, ZoneId zone, LocalDate today) {
    this.aircraft = aircraft;
    this.zone = zone;
    this.today = today;
  }

  FlightLine line(Flights.Entry entry) {
    FlightSheet row = entry.current();
    FlightDraft flight = row.flight();
    List<FlightLine.Note> notes = entry.breaks().stream().map(this::note).toList();
    return new FlightLine(
        row.id(),
        row.aircraftId(),
        Shown.day(day(flight.takeOff()), today),
        times(flight),
        flight.from(),
        flight.to(),
        row.isVoid() ? "" : used(entry.hours()),
        row.isVoid() || entry.totalHours() == Scale.UNKNOWN ? "" : used(entry.totalHours()),
        Integer.toString(flight.landings()),
        meter(flight),
        flight.commander(),
        row.isVoid(),
        entry.isDisputed(),
        notes.stream().anyMatch(FlightLine.Note::open),
        row.reason(),
        replaced(entry),
        notes);
  }

  /** All rows of an entry, the latest first; what a correction changed is marked. */
  List<FlightLine.Row> rows(Flights.Entry entry, Map<UUID, String> names) {
    List<FlightLine.Row> rows = new ArrayList<>();
    Map<String, String> before = null;
    for (FlightSheet row : entry.rows()) {
      List<FlightLine.Fact> facts = new ArrayList<>();
      Map<String, String> said = new HashMap<>();
      for (FlightLine.Fact fact : facts(row.flight())) {
        boolean changed = before != null && !fact.value().equals(before.get(fact.name()));
        facts.add(new FlightLine.Fact(fact.name(), fact.value(), changed));
        said.put(fact.name(), fact.value());
      }
      rows.add(
          0,
          new FlightLine.Row(
              row.id(),
              title(row),
              row != entry.current(),
              row.ledgerSeq(),
              "filed "
                  + Shown.moment(row.recordedAt(), zone)
                  + " by "
                  + names.getOrDefault(row.recordedBy(), "someone no longer here"),
              row.reason(),
              facts));
      before = said;
    }
    return rows;
  }

  /** "hours to the landing of 25 Nov, 10:18; filed 25 November 2026, 10:31 UTC". */
  String howOld(UsageLine usage) {
    if (usage.lastLanding().isEmpty()) {
      return "No flight is logged yet.";
    }
    String filed = usage.lastFiledAt().map(at -> ", filed " + Shown.moment(at, zone)).orElse("");
    return "Hours to the landing of "
        + Shown.moment(usage.lastLanding().get(), zone)
        + filed
        + "; "
        + aircraft.basisWords()
        + ".";
  }

  /** "6,482.6 h", or "not known". */
  String total(UsageLine usage) {
    long units = usage.unitsAt(Instant.MAX, Counter.HOURS);
    return units == Scale.UNKNOWN ? "not known" : used(units) + " h";
  }

  FlightHints hints(FlightSheet last) {
    if (last == null) {
      return new FlightHints("", "");
    }
    FlightDraft flight = last.flight();
    String meter =
        flight.meterIn() == null ? "" : "closed at " + exact(flight.meterIn()) + " last time";
    String fuel =
        flight.fuelLeft() == null
            ? ""
            : Shown.quantity(flight.fuelLeft())
                + " "
                + aircraft.particulars().fuelUnit()
                + " were left last time";
    return new FlightHints(meter, fuel);
  }

  FlightLine.Note note(Breaks.Line line) {
    return new FlightLine.Note(
        line.kind().word(), line.kind().title(), sentence(line), explained(line), line.isOpen());
  }

  /** "25 Nov, 09:12–10:18, Port Maddern to Skell Island". */
  String brief(FlightSheet row) {
    FlightDraft flight = row.flight();
    return Shown.day(day(flight.takeOff()), today)
        + ", "
        + times(flight)
        + ", "
        + flight.from()
        + " to "
        + flight.to();
  }

  private String sentence(Breaks.Line line) {
    String earlier = line.earlier() == null ? "its own reading" : brief(line.earlier());
    return switch (line.kind()) {
      case GAP ->
          "The meter opened "
              + exact(line.amount())
              + " h above the closing before ("
              + earlier
              + "): "
              + (line.countsAsFlown() ? "counted as flown." : "not flown, not counted.");
      case OVERLAP ->
          "It took off "
              + Shown.period(Duration.ofSeconds(line.amount()))
              + " before the landing of another flight ("
              + earlier
              + ").";
      case METER_BACKWARDS ->
          "The meter reads " + exact(line.amount()) + " h less than before (" + earlier + ").";
      case PLACE ->
          "It left from "
              + line.flight().flight().from()
              + "; the flight before arrived at "
              + line.earlier().flight().to()
              + ".";
    };
  }

  private static String explained(Breaks.Line line) {
    return line.words().isEmpty() ? "" : line.words().get(0).explanation();
  }

  private List<String> replaced(Flights.Entry entry) {
    List<String> replaced = new ArrayList<>();
    for (FlightSheet row : entry.rows()) {
      if (row != entry.current()) {
        replaced.add(0, row.isVoid() ? "void" : brief(row) + meterInBrief(row.flight()));
      }
    }
    return replaced;
  }

  private static String meterInBrief(FlightDraft flight) {
    return flight.meterOut() == null ? "" : ", meter " + meter(flight);
  }

  private static String title(FlightSheet row) {
    if (row.isVoid()) {
      return "Declared void";
    }
    return row.corrects() == null ? "As first filed" : "Correction";
  }

  private List<FlightLine.Fact> facts(FlightDraft flight) {
    List<FlightLine.Fact> facts = new ArrayList<>();
    fact(facts, "From", flight.from());
    fact(facts, "To", flight.to());
    moment(facts, "Off blocks", flight.offBlocks());
    moment(facts, "Take-off", flight.takeOff());
    moment(facts, "Landing", flight.landing());
    moment(facts, "On blocks", flight.onBlocks());
    if (flight.meterOut() != null) {
      fact(facts, meterName() + " before", exact(flight.meterOut()));
      fact(facts, meterName() + " after", exact(flight.meterIn()));
    }
    fact(facts, "Landings", Integer.toString(flight.landings()));
    if (flight.cycles() != null) {
      fact(facts, "Cycles", Integer.toString(flight.cycles()));
    }
    flight
        .others()
        .forEach(
            (counter, units) -> fact(facts, CounterWords.of(counter), counter.unit().show(units)));
    String unit = " " + aircraft.particulars().fuelUnit();
    quantity(facts, "Fuel put in", flight.fuelAdded(), unit);
    quantity(facts, "Fuel in tanks after", flight.fuelLeft(), unit);
    flight.oilAdded().forEach((at, added) -> quantity(facts, "Oil added, " + at, added, ""));
    fact(facts, "Commander", flight.commander());
    fact(facts, "Remarks", flight.remarks());
    return facts;
  }

  private String meterName() {
    String name = aircraft.particulars().meterName();
    return name.isEmpty()
        ? "Meter"
        : name.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + name.substring(1);
  }

  private static void fact(List<FlightLine.Fact> facts, String name, String value) {
    if (!value.isEmpty()) {
      facts.add(new FlightLine.Fact(name, value, false));
    }
  }

  private void moment(List<FlightLine.Fact> facts, String name, Instant at) {
    if (at != null) {
      fact(facts, name, Shown.moment(at, zone));
    }
  }

  private static void quantity(
      List<FlightLine.Fact> facts, String name, BigDecimal amount, String unit) {
    if (amount != null) {
      fact(facts, name, Shown.quantity(amount) + unit);
    }
  }

  private String times(FlightDraft flight) {
    boolean nextDay = !day(flight.takeOff()).equals(day(flight.landing()));
    return Shown.time(flight.takeOff(), zone)
        + "–"
        + Shown.time(flight.landing(), zone)
        + (nextDay ? " next day" : "");
  }

  private static String meter(FlightDraft flight) {
    return flight.meterOut() == null
        ? ""
        : exact(flight.meterOut()) + "–" + exact(flight.meterIn());
  }

  private LocalDate day(Instant moment) {
    return moment.atZone(zone).toLocalDate();
  }

  private String used(long seconds) {
    return Shown.used(new Hours(seconds), aircraft.shownAs());
  }

  private static String exact(long seconds) {
    return Shown.exact(new Hours(seconds));
  }
}
