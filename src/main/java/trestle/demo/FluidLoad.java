package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import trestle.fleet.FuelUnit;
import trestle.flights.FlightSheet;
import trestle.flights.Flights;
import trestle.flights.FluidArrangement;
import trestle.flights.FluidDraft;
import trestle.flights.FuelAndOil;
import trestle.web.Role;
import trestle.web.Viewer;

/** How the aircraft carry fuel and oil, and what was found in them on the last flying days. */
@ApplicationScoped
class FluidLoad {
  private static final int DAYS_READ = 8;
  private static final BigDecimal TENTHS = BigDecimal.TEN;

  @Inject FuelAndOil fluids;
  @Inject Flights flights;

  List<Event> events(WorkLoad.Stage stage) {
    List<Event> events = new ArrayList<>();
    for (SeedFile.Line line : SeedFile.lines("fuel-and-oil.csv")) {
      Totals totals = stage.totals().get(line.text("registration"));
      UUID aircraft = stage.fleet().aircraft(line.text("registration"));
      FluidArrangement arrangement = arrangement(line);
      Viewer controller = stage.cast().any(Role.CONTROLLER);
      events.add(
          new Event.Filed(
              stage.opened().plus(Duration.ofMinutes(50)),
              () -> {
                fluids.arrange(controller, aircraft, arrangement, null, null);
                return null;
              }));
      events.addAll(readings(line, arrangement, totals, aircraft, stage.cast()));
    }
    return events;
  }

  private static FluidArrangement arrangement(SeedFile.Line line) {
    List<FluidArrangement.Tank> tanks = new ArrayList<>();
    for (String tank : line.text("tanks").split("\\|")) {
      String[] sides = tank.split(": ");
      tanks.add(FluidArrangement.Tank.named(sides[0], new BigDecimal(sides[1])));
    }
    SortedMap<String, FluidArrangement.Engine> engines = new TreeMap<>();
    String[] scales = line.text("oil_scales").split("\\|");
    List<String> positions = List.of(line.text("engines").split("\\|"));
    for (int i = 0; i < positions.size(); i++) {
      engines.put(
          positions.get(i),
          new FluidArrangement.Engine(
              line.text("oil_unit"),
              i < scales.length ? scales[i] : "",
              new BigDecimal(line.text("oil_limit_an_hour")),
              new BigDecimal(line.text("oil_least"))));
    }
    return new FluidArrangement(
        null,
        FuelUnit.LITRES,
        new BigDecimal(line.text("burn_an_hour")),
        new BigDecimal(line.text("tolerance_percent")),
        tanks,
        engines);
  }

  /**
   * One after the last flight of each of the last flying days, each following from the one before.
   */
  private List<Event> readings(
      SeedFile.Line line, FluidArrangement arrangement, Totals totals, UUID aircraft, Cast cast) {
    List<Event> events = new ArrayList<>();
    Level level = new Level(line, arrangement);
    PlannedFlight before = null;
    for (PlannedFlight last : lastOfDays(totals.plan().flights())) {
      double hours =
          before == null
              ? 0
              : (totals.secondsAt(last.landing()) - totals.secondsAt(before.landing())) / 3600.0;
      FluidDraft found = level.after(hours, last.turn());
      Viewer pilot = cast.of(FlightLoad.commander(last));
      events.add(
          new Event.Filed(
              last.landing().plus(Duration.ofMinutes(27)), () -> file(pilot, aircraft, found)));
      before = last;
    }
    return events;
  }

  private UUID file(Viewer pilot, UUID aircraft, FluidDraft found) {
    FlightSheet flight = flights.last(pilot, aircraft).orElseThrow();
    fluids.file(pilot, aircraft, flight.entryId(), flight.flight(), found, null);
    return flight.entryId();
  }

  private static List<PlannedFlight> lastOfDays(List<PlannedFlight> flights) {
    List<PlannedFlight> last = new ArrayList<>();
    for (int i = flights.size() - 1; i >= 0 && last.size() < DAYS_READ; i--) {
      if (i + 1 == flights.size() || flights.get(i + 1).day() > flights.get(i).day()) {
        last.add(0, flights.get(i));
      }
    }
    return last;
  }

  /** What is in tanks and engines as the days go by: filled up when low. */
  private static final class Level {
    private final FluidArrangement arrangement;
    private final List<String> engines;
    private final BigDecimal full;
    private double fuel;
    private double oil;

    Level(SeedFile.Line line, FluidArrangement arrangement) {
      this.arrangement = arrangement;
      this.engines = List.copyOf(arrangement.engines().keySet());
      this.full = new BigDecimal(line.text("oil_full"));
      this.fuel = capacity() * 0.8;
      this.oil = full.doubleValue() - 0.5;
    }

    FluidDraft after(double hours, int turn) {
      double burned = hours * arrangement.burnPerHour().doubleValue() * (0.99 + turn % 5 * 0.005);
      double added = 0;
      while (fuel + added - burned < capacity() * 0.35) {
        added += Math.floor(capacity() * 0.4);
      }
      fuel = Math.min(capacity(), fuel + added - burned);
      oil -= hours * (0.12 + turn % 4 * 0.02);
      boolean low = oil < full.doubleValue() - 2;
      SortedMap<String, BigDecimal> put = new TreeMap<>();
      SortedMap<String, BigDecimal> dips = new TreeMap<>();
      for (FluidArrangement.Tank tank : arrangement.tanks()) {
        double share = tank.capacity().doubleValue() / capacity();
        dips.put(tank.code(), BigDecimal.valueOf(Math.round(fuel * share)));
        if (added > 0) {
          put.put(tank.code(), BigDecimal.valueOf(Math.round(added * share)));
        }
      }
      SortedMap<String, BigDecimal> oils = new TreeMap<>();
      SortedMap<String, BigDecimal> filled = new TreeMap<>();
      for (String engine : engines) {
        oils.put(engine, tenths(oil));
        if (low) {
          filled.put(engine, BigDecimal.ONE);
        }
      }
      oil += low ? 1 : 0;
      return new FluidDraft(
          FuelUnit.LITRES, null, put, new TreeMap<>(), dips, oils, filled, Set.of(), "");
    }

    private double capacity() {
      return arrangement.tanks().stream().mapToDouble(t -> t.capacity().doubleValue()).sum();
    }

    private static BigDecimal tenths(double amount) {
      return BigDecimal.valueOf(Math.round(amount * 10))
          .divide(TENTHS, 1, RoundingMode.UNNECESSARY);
    }
  }
}
