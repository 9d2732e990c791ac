package trestle.fleet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Groundings.GroundingSheet;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.reckoning.Counter;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** A part changed without a work order and without a release holds its aircraft. */
@QuarkusTest
class PartChangesTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T12:00:00Z");
  private static final Instant LATER = Instant.parse("2025-11-25T12:00:00Z");
  private static final Instant LAST = Instant.parse("2025-12-02T12:00:00Z");
  private static final String FITTED =
      "Engine Tarn 360, serial E-1, was fitted as Engine on 25 November 2025,"
          + " and no release is recorded.";
  private static final String REMOVED =
      "Engine Tarn 360, serial E-1, was removed from Engine on 25 November 2025,"
          + " and no release is recorded.";

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject Fleet fleet;
  @Inject PartChanges changes;
  @Inject Groundings groundings;

  private Viewer engineer;
  private UUID aircraft;
  private UUID engine;

  @BeforeEach
  void found() {
    engineer = founded("changes").viewer(Role.ENGINEER);
    aircraft = hangar.single(engineer, "QX-CHG", BEGINNING);
    engine = engine("E-1");
  }

  @Test
  void aFitmentWithoutAReleaseHoldsUntilSomebodyLiftsIt() {
    fit(engine, LATER, null);
    assertThat(why(aircraft)).containsExactly(FITTED);
    groundings.lift(engineer, aircraft, standing(aircraft).get(0).id(), "Release found: R-7");
    assertThat(why(aircraft)).isEmpty();
  }

  @Test
  void aRemovalWithoutAReleaseHolds() {
    UUID fitment = hangar.fit(engineer, engine, aircraft, "engine", BEGINNING);
    changes.remove(engineer, removal(fitment, LATER, null, null));
    assertThat(why(aircraft)).containsExactly(REMOVED);
  }

  @Test
  void aNamedReleaseHoldsNothing() {
    UUID fitment = fit(engine, LATER, "Certificate R-7");
    changes.remove(engineer, removal(fitment, LATER, "Certificate R-8", null));
    fit(engine, LATER, "Certificate R-9");
    changes.swap(engineer, swap(engine, engine("E-2"), "Certificate R-10", null));
    assertThat(groundings.history(engineer, aircraft, View.EVERYTHING)).isEmpty();
  }

  /** One that lay on the shelf comes in: only the aircraft that it comes into is concerned. */
  @Test
  void aSwapWithoutAReleaseHoldsTheAircraft() {
    UUID other = engine("E-2");
    hangar.fit(engineer, other, aircraft, "engine", BEGINNING);
    changes.swap(engineer, swap(other, engine, null, null));
    assertThat(why(aircraft)).containsExactly(FITTED);
  }

  @Test
  void aSwapBetweenTwoAircraftHoldsBothOnceHoweverOftenItIsSent() {
    UUID sister = hangar.single(engineer, "QX-CHS", BEGINNING);
    UUID other = engine("E-2");
    hangar.fit(engineer, engine, aircraft, "engine", BEGINNING);
    hangar.fit(engineer, other, sister, "engine", BEGINNING);
    Fitments.Swap form = swap(engine, other, null, UUID.randomUUID());
    changes.swap(engineer, form);
    changes.swap(engineer, form);
    assertThat(why(aircraft)).containsExactly(FITTED.replace("E-1", "E-2"));
    assertThat(why(sister)).containsExactly(FITTED);
  }

  @Test
  void aFormSentSeveralTimesAtOnceGroundsEachAircraftOnce() throws Exception {
    UUID sister = hangar.single(engineer, "QX-CHS", BEGINNING);
    UUID other = engine("E-2");
    hangar.fit(engineer, engine, aircraft, "engine", BEGINNING);
    hangar.fit(engineer, other, sister, "engine", BEGINNING);
    Fitments.Swap form = swap(engine, other, null, UUID.randomUUID());
    Callable<Void> sent =
        () -> {
          changes.swap(engineer, form);
          return null;
        };
    ExecutorService people = Executors.newFixedThreadPool(4);
    for (Future<Void> one : people.invokeAll(Collections.nCopies(8, sent))) {
      one.get();
    }
    people.shutdown();
    assertThat(why(aircraft)).hasSize(1);
    assertThat(why(sister)).hasSize(1);
  }

  @Test
  void aSwapOnOneAircraftIsOneGroundingThatSaysBoth() {
    UUID twin =
        fleet.register(
            engineer,
            new Fleet.Registering(
                Particulars.of("QX-CHT", "Dunlin S4", "S-2"),
                Position.twin(),
                BEGINNING,
                Map.of(Counter.HOURS, 3_600L),
                null));
    UUID other = engine("E-2");
    hangar.fit(engineer, engine, twin, "engine-1", BEGINNING);
    hangar.fit(engineer, other, twin, "engine-2", BEGINNING);
    changes.swap(engineer, swap(engine, other, null, null));
    assertThat(why(twin))
        .containsExactly(
            FITTED.replace("E-1", "E-2").replace("as Engine", "as Engine 1, left")
                + " "
                + FITTED.replace("as Engine", "as Engine 2, right"));
  }

  /** What was fitted by then is the state that the records begin with. */
  @Test
  void whatIsFittedWhenTheRecordsBeginHoldsNothing() {
    UUID propeller = hangar.propeller(engineer, "P-1", BEGINNING.minus(Duration.ofDays(9)));
    fit(engine, BEGINNING, null);
    changes.fit(
        engineer,
        new Fitments.Fit(
            propeller, aircraft, "propeller", BEGINNING.minus(Duration.ofDays(1)), null));
    assertThat(why(aircraft)).isEmpty();
  }

  /** Both were typed on the day, without a time; but what was changed on that day was changed. */
  @Test
  void onTheDayOnWhichTheRecordsBeginAFitmentStatesThemAndARemovalChanges() {
    Instant afterwards = BEGINNING.plus(Duration.ofMinutes(1));
    UUID fitment = fit(engine, afterwards, null);
    assertThat(why(aircraft)).isEmpty();
    changes.remove(engineer, removal(fitment, afterwards.plusSeconds(60), null, null));
    assertThat(why(aircraft)).containsExactly(REMOVED.replace("25 November", "1 January"));
  }

  @Test
  void aPartOfAnAssemblyHoldsTheAircraftThatCarriesIt() {
    hangar.fit(engineer, engine, aircraft, "engine", BEGINNING);
    UUID magneto = hangar.magneto(engineer, "MAG-4", "M-1", BEGINNING);
    UUID fitment = changes.fit(engineer, into(magneto, engine, LATER));
    assertThat(why(aircraft))
        .containsExactly(
            "Magneto, serial M-1, was fitted as Engine, left magneto on 25 November 2025,"
                + " and no release is recorded.");
    changes.remove(engineer, removal(fitment, LAST, null, null));
    assertThat(why(aircraft))
        .contains(
            "Magneto, serial M-1, was removed from Engine, left magneto on 2 December 2025,"
                + " and no release is recorded.");
  }

  @Test
  void aPartOfAnAssemblyOnTheShelfHoldsNothing() {
    UUID magneto = hangar.magneto(engineer, "MAG-4", "M-1", BEGINNING);
    UUID fitment = changes.fit(engineer, into(magneto, engine, LATER));
    changes.remove(engineer, removal(fitment, LATER.plusSeconds(60), null, null));
    hangar.fit(engineer, engine, aircraft, "engine", LAST);
    changes.fit(engineer, into(magneto, engine, LATER.plusSeconds(120)));
    assertThat(groundings.history(engineer, aircraft, View.EVERYTHING)).isEmpty();
  }

  /** Where the assembly was at that moment counts, not where it is now. */
  @Test
  void theAircraftThatCarriedTheAssemblyThenIsHeld() {
    UUID sister = hangar.single(engineer, "QX-CHS", BEGINNING);
    UUID fitment = hangar.fit(engineer, engine, aircraft, "engine", BEGINNING);
    hangar.remove(engineer, fitment, LAST);
    hangar.fit(engineer, engine, sister, "engine", LAST);
    UUID magneto = hangar.magneto(engineer, "MAG-4", "M-1", BEGINNING);
    changes.fit(engineer, into(magneto, engine, LATER));
    assertThat(why(aircraft)).hasSize(1);
    assertThat(why(sister)).isEmpty();
  }

  @Test
  void aFormSentTwiceGroundsOnceAndNotAgainOnceThatIsLifted() {
    Fitments.Fit form =
        new Fitments.Fit(engine, Spot.on(aircraft, "engine"), LATER, null, UUID.randomUUID());
    UUID fitment = changes.fit(engineer, form);
    assertThat(changes.fit(engineer, form)).isEqualTo(fitment);
    assertThat(why(aircraft)).hasSize(1);
    groundings.lift(engineer, aircraft, standing(aircraft).get(0).id(), "Looked at");
    changes.fit(engineer, form);
    assertThat(why(aircraft)).isEmpty();
    Fitments.Remove removal = removal(fitment, LAST, null, UUID.randomUUID());
    changes.remove(engineer, removal);
    changes.remove(engineer, removal);
    assertThat(why(aircraft)).hasSize(1);
  }

  /** Nothing is grounded by a change that was refused. */
  @Test
  void whatIsRefusedGroundsNothing() {
    fit(engine, BEGINNING, null);
    assertThatThrownBy(() -> fit(engine("E-2"), LATER, null)).isInstanceOf(Refusal.class);
    assertThat(why(aircraft)).isEmpty();
  }

  @Test
  void anotherOperatorsPartsAreNotToBeChanged() {
    UUID fitment = hangar.fit(engineer, engine, aircraft, "engine", BEGINNING);
    Viewer stranger = founded("elsewhere").viewer(Role.ENGINEER);
    assertThatThrownBy(() -> changes.remove(stranger, removal(fitment, LATER, null, null)))
        .isInstanceOf(NotHere.class);
    changes.remove(engineer, removal(fitment, LATER, null, null));
    assertThat(groundings.standing(stranger, List.of(aircraft), View.EVERYTHING)).isEmpty();
    assertThat(why(aircraft)).containsExactly(REMOVED);
  }

  private Company founded(String name) {
    return Company.founded(name + "-" + UUID.randomUUID(), operators, members);
  }

  private UUID engine(String serial) {
    return hangar.engine(engineer, serial, BEGINNING.minus(Duration.ofDays(9)), 3_600L, null);
  }

  private UUID fit(UUID part, Instant at, String released) {
    return changes.fit(
        engineer, new Fitments.Fit(part, Spot.on(aircraft, "engine"), at, released, null));
  }

  private static Fitments.Fit into(UUID part, UUID assembly, Instant at) {
    return new Fitments.Fit(part, Spot.in(assembly, "left magneto"), at, null);
  }

  private static Fitments.Remove removal(UUID fitment, Instant at, String released, UUID key) {
    return new Fitments.Remove(fitment, at, "Rough running", false, released, key);
  }

  private static Fitments.Swap swap(UUID part, UUID other, String released, UUID key) {
    return new Fitments.Swap(part, other, LATER, "Rough running", false, released, key);
  }

  private List<GroundingSheet> standing(UUID of) {
    return groundings.standing(engineer, List.of(of), View.EVERYTHING).getOrDefault(of, List.of());
  }

  private List<String> why(UUID of) {
    return standing(of).stream().map(GroundingSheet::why).toList();
  }
}
