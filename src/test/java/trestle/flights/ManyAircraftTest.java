package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;
import static trestle.fleet.Hangar.hours;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.Test;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.server.StatementCount;
import trestle.web.Role;
import trestle.web.Viewer;

/** Reading many aircraft takes as many statements as reading one. */
@QuarkusTest
class ManyAircraftTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");

  @Inject JourneyLog log;
  @Inject UsageLines usageLines;
  @Inject ComponentLines componentLines;
  @Inject Breaks breaks;
  @Inject Fleet fleet;
  @Inject Hangar hangar;
  @Inject Operators operators;
  @Inject Members members;

  @Test
  void theNumberOfStatementsDoesNotDependOnTheNumberOfAircraft() throws Exception {
    Viewer owner = Company.founded("many-aircraft", operators, members).viewer(Role.OWNER);
    List<UUID> aircraft = new ArrayList<>();
    List<UUID> engines = new ArrayList<>();
    for (int i = 0; i < 7; i++) {
      UUID each = hangar.single(owner, "QX-M" + i, BEGINNING);
      UUID engine = hangar.engine(owner, "E-" + i, BEGINNING, hours(i), hours(i));
      hangar.fit(owner, engine, each, "engine", BEGINNING);
      for (int day = 1; day <= i; day++) {
        Instant takeOff = BEGINNING.plusSeconds(86_400L * day);
        log.file(
            owner,
            each,
            FlightDraft.of("A", "B", takeOff, takeOff.plusSeconds(3600), 1, "I. Tarn"),
            null);
      }
      aircraft.add(each);
      engines.add(engine);
    }
    View known = new View(View.EVERYTHING.upTo(), 1_000_000L);
    same(
        () -> usageLines.of(owner, aircraft.subList(0, 1), View.EVERYTHING),
        () -> usageLines.of(owner, aircraft, View.EVERYTHING));
    same(
        () -> usageLines.of(owner, aircraft.subList(0, 1), known),
        () -> usageLines.of(owner, aircraft, known));
    same(
        () -> componentLines.of(owner, engines.subList(0, 1), View.EVERYTHING),
        () -> componentLines.of(owner, engines, View.EVERYTHING));
    same(
        () -> componentLines.fittedTo(owner, aircraft.subList(0, 1), View.EVERYTHING),
        () -> componentLines.fittedTo(owner, aircraft, View.EVERYTHING));
    same(
        () -> breaks.of(owner, aircraft.subList(2, 3), View.EVERYTHING),
        () -> breaks.of(owner, aircraft, View.EVERYTHING));
    same(
        () -> fleet.emptyRequiredPositions(owner, aircraft.subList(0, 1), View.EVERYTHING),
        () -> fleet.emptyRequiredPositions(owner, aircraft, View.EVERYTHING));
    assertThat(StatementCount.of(() -> fleet.sheets(owner, View.EVERYTHING))).hasSize(1);
  }

  private static void same(Callable<?> few, Callable<?> many) throws Exception {
    List<String> one = StatementCount.of(few);
    assertThat(one).isNotEmpty();
    assertThat(StatementCount.of(many)).hasSameSizeAs(one);
  }
}
