package trestle.flights;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.LocalTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.SortedMap;
import java.util.TreeMap;
import trestle.fleet.AircraftSheet;
import trestle.fleet.CounterWords;
import trestle.fleet.HoursBasis;
import trestle.fleet.PartKind;
import trestle.fleet.Position;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.web.Field;
import trestle.web.Form;
import trestle.web.LocalMoment;
import trestle.web.Option;
import trestle.web.Shown;

/** Reads the report of one flight. */
public final class FlightForm {
  /** Longer than anyone taxies: a time further off belongs to no other day. */
  private static final Duration LONGEST_TAXI = Duration.ofHours(3);

  private final Form form;
  private final ZoneId zone;
  private final LocalDate today;
  private final AircraftSheet aircraft;
  private final List<Counter> counted;
  private final List<Position> engines;
  private final List<Ask> asks = new ArrayList<>();
  private boolean asksNextDay;
  private final FluidForm fluids;
  private FluidDraft found;
  private LocalDate date;

  /** A question that a time raised: which of the two moments it is. */
  public record Ask(String name, String label, List<Option> options) {}

  /** A counter that the aircraft counts besides hours and landings. */
  public record CounterField(String name, String label, boolean inHours) {
    public String hint() {
      return inHours ? "hours, of this flight" : "of this flight";
    }
  }

  FlightForm(
      Form form,
      ZoneId zone,
      LocalDate today,
      AircraftSheet aircraft,
      List<Counter> counted,
      List<Position> positions,
      FluidArrangement arrangement,
      FluidState left) {
    this.form = form;
    this.zone = zone;
    this.today = today;
    this.aircraft = aircraft;
    this.counted = counted;
    this.engines =
        positions.stream().filter(position -> position.kind() == PartKind.ENGINE).toList();
    this.fluids = arrangement.isStated() ? new FluidForm(form, arrangement, left, engines) : null;
  }

  public Form form() {
    return form;
  }

  /** Fuel and oil tank by tank, or null where nobody has said how they are carried. */
  public FluidForm fluids() {
    return fluids;
  }

  /** What was found of fuel and oil, once read; null where nobody has said how they are carried. */
  public FluidDraft found() {
    return found;
  }

  public List<Ask> asks() {
    return asks;
  }

  /** Landing read earlier than take-off: the next day is offered. */
  public boolean asksNextDay() {
    return asksNextDay;
  }

  public String nextDay() {
    return date == null ? "" : Shown.date(date.plusDays(1));
  }

  public String blocksHint() {
    return countsFlightHours() ? "24 h" : "optional";
  }

  /** What the aircraft's meter is called, to begin a label with. */
  public String meterName() {
    String name = aircraft.particulars().meterName();
    return name.isEmpty() ? "" : name.substring(0, 1).toUpperCase(Locale.ROOT) + name.substring(1);
  }

  public boolean hasMeter() {
    return aircraft.particulars().hasMeter();
  }

  public boolean meterNeeded() {
    return hasMeter() && aircraft.particulars().hoursBasis() == HoursBasis.METER;
  }

  public boolean countsFlightHours() {
    return counted.contains(StepArrays.FLIGHT_HOURS);
  }

  public List<Position> engines() {
    return engines;
  }

  /** The further counters, engine cycles first. */
  public List<CounterField> counters() {
    List<CounterField> fields = new ArrayList<>();
    if (counted.contains(StepArrays.CYCLES)) {
      fields.add(new CounterField("cycles", "Cycles", false));
    }
    counted.stream()
        .filter(Counted::isOther)
        .forEach(
            counter ->
                fields.add(
                    new CounterField(counter.name(), CounterWords.of(counter), counter.inHours())));
    return fields;
  }

  /** The report, or null with the reasons noted in the form. */
  public FlightDraft read() {
    date = form.required("date", "Date of take-off").dateUpTo(today);
    String from = form.required("from", "From").text(80);
    String to = form.required("to", "To").text(80);
    Instant takeOff = moment("take-off", "Take-off", time("take-off", "Take-off"));
    Instant landing = landing();
    Instant off = offBlocks(takeOff);
    Instant on = onBlocks(landing);
    Hours meterOut = meter("meter-out", "Meter before");
    Hours meterIn = meter("meter-in", "Meter after");
    Integer landings = form.required("landings", "Landings").count(999);
    Integer cycles =
        counted.contains(StepArrays.CYCLES) ? form.required("cycles", "Cycles").count(999) : null;
    SortedMap<Counter, Long> others = others();
    found = fluids == null ? null : fluids.read();
    BigDecimal fuelAdded =
        fluids == null
            ? form.optional("fuel-added", "Fuel put in").decimal(2)
            : fluids.added(found);
    BigDecimal fuelLeft =
        fluids == null
            ? form.optional("fuel-left", "Fuel in tanks now").decimal(2)
            : fluids.left(found);
    SortedMap<String, BigDecimal> oil = fluids == null ? oil() : found.oilAdded();
    String commander = form.required("commander", "Commander").text(120);
    String remarks = form.optional("remarks", "Remarks").lines(4000);
    if (form.isBad()) {
      return null;
    }
    return new FlightDraft(
        from,
        to,
        off,
        takeOff,
        landing,
        on,
        meterOut == null ? null : meterOut.seconds(),
        meterIn == null ? null : meterIn.seconds(),
        landings,
        cycles,
        others,
        commander,
        fuelAdded,
        fuelLeft,
        oil,
        remarks);
  }

  private LocalTime time(String name, String label) {
    return form.required(name, label).time();
  }

  private Instant moment(String name, String label, LocalTime time) {
    return date == null || time == null ? null : moment(name, label, date.atTime(time));
  }

  private Instant moment(String name, String label, LocalDateTime at) {
    List<Option> choices = LocalMoment.choices(at, zone);
    if (!choices.isEmpty()) {
      asks.add(
          new Ask(
              LocalMoment.whichField(name),
              label + " " + Shown.time(at.toLocalTime()) + ": which one?",
              choices));
    }
    return LocalMoment.of(form, name, label, at, zone);
  }

  /** Earlier on the clock than take-off: it landed the next day, if the person says so. */
  private Instant landing() {
    LocalTime landing = time("landing", "Landing");
    LocalTime takeOff = form.isBad("take-off") ? null : timeOf("take-off");
    if (date == null || landing == null || takeOff == null) {
      return null;
    }
    // Over a clock put back the landing may read earlier and yet be the same day.
    boolean clockPutBack = !LocalMoment.choices(date.atTime(landing), zone).isEmpty();
    asksNextDay = landing.isBefore(takeOff);
    // A tick left over from times since put right says nothing.
    boolean nextDay = asksNextDay && form.checked("next-day");
    if (nextDay) {
      return moment("landing", "Landing", date.plusDays(1).atTime(landing));
    }
    if (!asksNextDay || clockPutBack) {
      return moment("landing", "Landing", date.atTime(landing));
    }
    form.fail(
        "next-day",
        "Landing "
            + Shown.time(landing)
            + " is before take-off "
            + Shown.time(takeOff)
            + ": was it the next day, "
            + nextDay()
            + "?");
    return null;
  }

  private LocalTime timeOf(String name) {
    return form.optional(name, "").time();
  }

  private Instant offBlocks(Instant takeOff) {
    LocalTime time = blocks("off-blocks", "Off blocks").time();
    if (time == null || takeOff == null) {
      return null;
    }
    LocalDateTime same = takeOff.atZone(zone).toLocalDate().atTime(time);
    Instant at = moment("off-blocks", "Off blocks", same);
    if (at == null || !at.isAfter(takeOff)) {
      return at;
    }
    Instant before = moment("off-blocks", "Off blocks", same.minusDays(1));
    boolean taxied =
        before != null && Duration.between(before, takeOff).compareTo(LONGEST_TAXI) <= 0;
    return taxied ? before : at;
  }

  private Instant onBlocks(Instant landing) {
    LocalTime time = blocks("on-blocks", "On blocks").time();
    if (time == null || landing == null) {
      return null;
    }
    LocalDateTime same = landing.atZone(zone).toLocalDate().atTime(time);
    Instant at = moment("on-blocks", "On blocks", same);
    if (at == null || !at.isBefore(landing)) {
      return at;
    }
    Instant after = moment("on-blocks", "On blocks", same.plusDays(1));
    boolean taxied = after != null && Duration.between(landing, after).compareTo(LONGEST_TAXI) <= 0;
    return taxied ? after : at;
  }

  private Field blocks(String name, String label) {
    return countsFlightHours() ? form.required(name, label) : form.optional(name, label);
  }

  private Hours meter(String name, String label) {
    if (!hasMeter()) {
      return null;
    }
    boolean needed = meterNeeded() && !form.checked("meter-unread");
    return (needed ? form.required(name, label) : form.optional(name, label)).hours();
  }

  private SortedMap<Counter, Long> others() {
    SortedMap<Counter, Long> others = new TreeMap<>();
    for (Counter counter : counted) {
      if (Counted.isOther(counter)) {
        Field field = form.required(counter.name(), CounterWords.of(counter));
        Long units = null;
        if (counter.inHours()) {
          Hours hours = field.hours();
          units = hours == null ? null : Long.valueOf(hours.seconds());
        } else {
          units = field.count();
        }
        if (units != null) {
          others.put(counter, units);
        }
      }
    }
    return others;
  }

  private SortedMap<String, BigDecimal> oil() {
    SortedMap<String, BigDecimal> oil = new TreeMap<>();
    for (Position engine : engines) {
      BigDecimal added =
          form.optional("oil-" + engine.code(), "Oil added, " + engine.label()).decimal(2);
      if (added != null) {
        oil.put(engine.code(), added);
      }
    }
    return oil;
  }

  /** Fills a form with what a flight says, for a correction. */
  static Form filled(FlightDraft flight, ZoneId zone) {
    LocalDate day = flight.takeOff().atZone(zone).toLocalDate();
    Form form =
        Form.blank()
            .with("date", Shown.date(day))
            .with("from", flight.from())
            .with("to", flight.to())
            .with("landings", flight.landings())
            .with("cycles", flight.cycles())
            .with("commander", flight.commander())
            .with("fuel-added", plain(flight.fuelAdded()))
            .with("fuel-left", plain(flight.fuelLeft()))
            .with("remarks", flight.remarks())
            .with("meter-out", hours(flight.meterOut()))
            .with("meter-in", hours(flight.meterIn()));
    time(form, "off-blocks", flight.offBlocks(), zone);
    time(form, "take-off", flight.takeOff(), zone);
    time(form, "landing", flight.landing(), zone);
    time(form, "on-blocks", flight.onBlocks(), zone);
    if (flight.landing().atZone(zone).toLocalDate().isAfter(day)) {
      form.with("next-day", "yes");
    }
    if (flight.meterOut() == null) {
      form.with("meter-unread", "yes");
    }
    flight
        .others()
        .forEach((counter, units) -> form.with(counter.name(), counter.unit().show(units)));
    flight.oilAdded().forEach((at, amount) -> form.with("oil-" + at, plain(amount)));
    return form;
  }

  private static void time(Form form, String name, Instant moment, ZoneId zone) {
    if (moment != null) {
      form.with(name, Shown.time(moment, zone));
      form.with(LocalMoment.whichField(name), zone.getRules().getOffset(moment).getId());
    }
  }

  private static String hours(Long seconds) {
    return seconds == null ? null : new Hours(seconds).toString();
  }

  private static String plain(BigDecimal amount) {
    return amount == null ? null : amount.toPlainString();
  }
}
