package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static trestle.fleet.Hangar.hours;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.Meters;
import trestle.fleet.Particulars;
import trestle.fleet.Revisions;
import trestle.fleet.Rounding;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Flights filed, corrected and voided, and what they move. */
@QuarkusTest
class JourneyLogTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static final View NOW = View.EVERYTHING;
  private static int companies;

  @Inject JourneyLog log;
  @Inject Flights flights;
  @Inject Breaks breaks;
  @Inject Rates rates;
  @Inject UsageLines lines;
  @Inject Fleet fleet;
  @Inject Meters meters;
  @Inject Revisions revisions;
  @Inject Hangar hangar;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private Viewer pilot;

  @BeforeEach
  void found() {
    company = Company.founded("journey-log-" + companies++, operators, members);
    pilot = company.viewer(Role.PILOT);
  }

  @Test
  void timeInServiceIsFromTakeOffToLandingAndFlightTimeFromBlockToBlock() {
    // 14 CFR 1.1, "time in service" and "flight time"; the figures are our own arithmetic.
    UUID aircraft = hangar.single(pilot, "QX-SOR", BEGINNING);
    open(aircraft, "flight-hours", hours(7_000));
    log.file(
        pilot,
        aircraft,
        flight("09:12", "10:18").blocks(at("09:00"), at("10:25")),
        UUID.randomUUID());
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_000) + 66 * 60);
    assertThat(total(aircraft, "flight-hours")).isEqualTo(hours(7_000) + 85 * 60);
    assertThat(total(aircraft, "landings")).isEqualTo(2_001);
  }

  @Test
  void aLogbookInTenthsRoundsEachFlight() {
    UUID aircraft =
        hangar.register(
            pilot,
            Particulars.of("QX-TEN", "Skerry 200", "S-2").rounded(Rounding.TENTHS),
            BEGINNING);
    log.file(pilot, aircraft, flight("09:00", "09:08"), null);
    log.file(pilot, aircraft, flight("10:00", "10:08"), null);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_000.2));
  }

  @Test
  void aCounterWithoutAnOpeningIsUnknownNeverZero() {
    UUID aircraft = hangar.single(pilot, "QX-UNK", BEGINNING);
    log.file(pilot, aircraft, flight("09:00", "10:00").cycled(1), null);
    UsageLine line = lines.of(pilot, aircraft, NOW);
    assertThat(line.totalAt(Instant.MAX, "cycles")).isEmpty();
    assertThat(line.total().toMap().keySet()).containsOnly(Counter.HOURS, Counter.LANDINGS);
    assertThat(line.unitsAt(BEGINNING.minusSeconds(1), Counter.HOURS)).isEqualTo(Scale.UNKNOWN);
  }

  @Test
  void anOpeningThatIsNotKnownLeavesTheTotalUnknown() {
    UUID aircraft = hangar.single(pilot, "QX-OPN", BEGINNING);
    open(aircraft, "cycles", null);
    log.file(pilot, aircraft, flight("09:00", "10:00").cycled(1), null);
    assertThat(lines.of(pilot, aircraft, NOW).totalAt(Instant.MAX, "cycles")).isEmpty();
  }

  @Test
  void whatTheAircraftCountsTheReportMustGive() {
    UUID aircraft = hangar.single(pilot, "QX-CNT", BEGINNING);
    open(aircraft, "cycles", 10L);
    open(aircraft, "heater-hours", hours(40));
    assertThatThrownBy(() -> log.file(pilot, aircraft, flight("09:00", "10:00"), null))
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons())
                    .extracting(Refusal.Reason::field)
                    .containsExactlyInAnyOrder("cycles", "heater-hours"));
    log.file(
        pilot,
        aircraft,
        flight("09:00", "10:00")
            .cycled(2)
            .counting(new TreeMap<>(Map.of(new Counter("heater-hours"), hours(0.4)))),
        null);
    assertThat(total(aircraft, "cycles")).isEqualTo(12);
    assertThat(total(aircraft, "heater-hours")).isEqualTo(hours(40.4));
  }

  @Test
  void aLateFlightMovesExactlyWhatLandedAfterIt() {
    UUID aircraft = hangar.single(pilot, "QX-LAT", BEGINNING);
    log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    log.file(pilot, aircraft, flight("14:00", "15:00"), null);
    log.file(pilot, aircraft, flight("11:00", "11:30"), null);
    UsageLine line = lines.of(pilot, aircraft, NOW);
    assertThat(line.unitsAt(at("10:00"), Counter.HOURS)).isEqualTo(hours(6_001));
    assertThat(line.unitsAt(at("11:29"), Counter.HOURS)).isEqualTo(hours(6_001));
    assertThat(line.unitsAt(at("11:30"), Counter.HOURS)).isEqualTo(hours(6_001.5));
    assertThat(line.unitsAt(at("15:00"), Counter.HOURS)).isEqualTo(hours(6_002.5));
  }

  @Test
  void aFlightThatLandedBeforeTheCounterWasOpenedIsInTheOpeningAlready() {
    UUID aircraft = hangar.single(pilot, "QX-OLD", at("12:00"));
    log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_000));
  }

  @Test
  void aCorrectionMovesTheHoursAndKeepsTheOriginal() {
    UUID aircraft = hangar.single(pilot, "QX-COR", BEGINNING);
    var first = log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    var second =
        log.correct(pilot, first.id(), flight("09:00", "10:30"), "Misread the clock", null);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_001.5));
    Flights.Entry entry = flights.entry(pilot, first.id());
    assertThat(entry.rows()).extracting(FlightSheet::id).containsExactly(first.id(), second.id());
    assertThat(entry.current().reason()).isEqualTo("Misread the clock");
    assertThat(second.entryId()).isEqualTo(first.entryId());

    log.correct(pilot, second.id(), flight("09:00", "10:00"), "Right at first", null);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_001));
    assertThatThrownBy(
            () -> log.correct(pilot, second.id(), flight("09:00", "11:00"), "Too late", null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void aVoidFlightCountsForNothingUntilItIsCorrectedBack() {
    UUID aircraft = hangar.single(pilot, "QX-VOI", BEGINNING);
    var first = log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    var gone = log.voided(pilot, first.id(), "Never took off", null);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_000));
    log.correct(pilot, gone.id(), flight("09:00", "10:00"), "It did", null);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_001));
  }

  @Test
  void asItWasKnownThenIsReckonedFromTheFlightsThenKnown() {
    UUID aircraft = hangar.single(pilot, "QX-VIE", BEGINNING);
    var first = log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    long known = first.ledgerSeq();
    log.correct(pilot, first.id(), flight("09:00", "11:00"), "Misread", null);
    LocalDate day = LocalDate.of(2025, 3, 10);
    assertThat(total(aircraft, new View(day, known))).isEqualTo(hours(6_001));
    assertThat(total(aircraft, View.asAt(day))).isEqualTo(hours(6_002));
    assertThat(total(aircraft, View.asAt(day.minusDays(1)))).isEqualTo(hours(6_000));
  }

  @Test
  void oneFormIsFiledOnceAndAnswersTheSame() {
    UUID aircraft = hangar.single(pilot, "QX-KEY", BEGINNING);
    UUID key = UUID.randomUUID();
    var first = log.file(pilot, aircraft, flight("09:00", "10:00"), key);
    var again = log.file(pilot, aircraft, flight("09:00", "10:00"), key);
    assertThat(again).usingRecursiveComparison().ignoringFields("repeated").isEqualTo(first);
    assertThat(again.repeated()).isTrue();
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_001));
    assertThatThrownBy(() -> log.file(pilot, aircraft, flight("09:00", "10:01"), key))
        .isInstanceOf(Stale.class);
  }

  @Test
  void whatCannotBeIsRefusedWithASentence() {
    UUID aircraft = hangar.single(pilot, "QX-BAD", BEGINNING);
    Instant tomorrow = Instant.parse("2999-01-01T10:00:00Z");
    refused(aircraft, flight("10:00", "09:00"), "landing");
    refused(
        aircraft,
        FlightDraft.of("A", "B", tomorrow, tomorrow.plusSeconds(60), 1, "I. Tarn"),
        "landing");
    refused(aircraft, FlightDraft.of("", "B", at("09:00"), at("10:00"), 1, "I. Tarn"), "from");
    refused(aircraft, flight("09:00", "10:00").blocks(at("09:01"), at("10:10")), "off-blocks");
    assertThat(flights.page(pilot, aircraft, NOW, 1).flights()).isZero();
  }

  @Test
  void aFlightOfAnotherOperatorIsNotHere() {
    UUID aircraft = hangar.single(pilot, "QX-WAL", BEGINNING);
    var first = log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    Viewer stranger =
        Company.founded("journey-log-x-" + companies++, operators, members).viewer(Role.PILOT);
    assertThatThrownBy(() -> flights.entry(stranger, first.id())).isInstanceOf(NotHere.class);
    assertThatThrownBy(() -> log.file(stranger, aircraft, flight("11:00", "12:00"), null))
        .isInstanceOf(NotHere.class);
    assertThat(lines.of(stranger, aircraft, NOW).flights()).isZero();
  }

  @Test
  void aMetersReadingsAreTheHoursWhereThatIsTheBasis() {
    UUID aircraft = metered("QX-MET");
    log.file(pilot, aircraft, flight("09:00", "10:00").metered(hours(100), hours(100.8)), null);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_000.8));
  }

  @Test
  void aGapCountsAsFlownUntilItIsExplained() {
    UUID aircraft = metered("QX-GAP");
    log.file(pilot, aircraft, flight("09:00", "10:00").metered(hours(100), hours(101)), null);
    var second =
        log.file(
            pilot, aircraft, flight("12:00", "13:00").metered(hours(101.3), hours(102.3)), null);
    assertThat(second.disagreements()).containsExactly(BreakKind.GAP);
    assertThat(second.isDisputed()).isFalse();
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_002.3));
    // Nobody knows when in between: it counts with the flight that showed it.
    assertThat(lines.of(pilot, aircraft, NOW).unitsAt(at("12:30"), Counter.HOURS))
        .isEqualTo(hours(6_001));

    long known = second.ledgerSeq();
    explain(aircraft, second.id(), false);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_002));
    assertThat(total(aircraft, new View(LocalDate.of(2025, 3, 10), known)))
        .isEqualTo(hours(6_002.3));
    assertThat(breaks.of(pilot, aircraft, NOW).get(0).isOpen()).isFalse();

    explain(aircraft, second.id(), true);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_002.3));
  }

  @Test
  void theMissingFlightFoundClosesTheGap() {
    UUID aircraft = metered("QX-MIS");
    log.file(pilot, aircraft, flight("09:00", "10:00").metered(hours(100), hours(101)), null);
    log.file(pilot, aircraft, flight("14:00", "15:00").metered(hours(101.5), hours(102.5)), null);
    assertThat(breaks.of(pilot, aircraft, NOW))
        .extracting(Breaks.Line::kind)
        .contains(BreakKind.GAP);
    log.file(pilot, aircraft, flight("11:00", "11:30").metered(hours(101), hours(101.5)), null);
    assertThat(breaks.of(pilot, aircraft, NOW))
        .extracting(Breaks.Line::kind)
        .doesNotContain(BreakKind.GAP);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_002.5));
  }

  @Test
  void aFlightWithoutReadingsIsTakenOutOfTheGap() {
    UUID aircraft = metered("QX-NOR");
    log.file(pilot, aircraft, flight("09:00", "10:00").metered(hours(100), hours(101)), null);
    log.file(pilot, aircraft, flight("11:00", "11:30"), null);
    var third =
        log.file(
            pilot, aircraft, flight("14:00", "15:00").metered(hours(101.5), hours(102.5)), null);
    assertThat(third.disagreements()).doesNotContain(BreakKind.GAP);
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_002.5));
  }

  @Test
  void aMeterReplacedOrRolledOverRunsOn() {
    UUID aircraft = metered("QX-ROL");
    log.file(pilot, aircraft, flight("09:00", "10:00").metered(hours(9_998), hours(9_999)), null);
    meters.changeMeter(
        company.viewer(Role.CONTROLLER),
        aircraft,
        new Meters.ChangingMeter(at("10:30"), hours(9_999), 0, null, false, null, null));
    var after = log.file(pilot, aircraft, flight("11:00", "12:00").metered(0, hours(1)), null);
    assertThat(after.disagreements()).isEmpty();
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_002));
  }

  @Test
  void aMeterChangeFiledLaterSettlesTheDispute() {
    UUID aircraft = metered("QX-SET");
    log.file(pilot, aircraft, flight("09:00", "10:00").metered(hours(500), hours(501)), null);
    var after = log.file(pilot, aircraft, flight("11:00", "12:00").metered(0, hours(1)), null);
    assertThat(after.isDisputed()).isTrue();
    meters.changeMeter(
        company.viewer(Role.CONTROLLER),
        aircraft,
        new Meters.ChangingMeter(at("10:30"), hours(501.2), 0, null, false, null, null));
    assertThat(breaks.of(pilot, aircraft, NOW))
        .extracting(Breaks.Line::kind, Breaks.Line::amount)
        .containsExactly(org.assertj.core.groups.Tuple.tuple(BreakKind.GAP, hours(0.2)));
  }

  @Test
  void aReadingMistypedLowIsDisputedAndDoesNotUpsetTheNext() {
    UUID aircraft = metered("QX-LOW");
    log.file(pilot, aircraft, flight("09:00", "10:00").metered(hours(1_234), hours(1_235)), null);
    var slip =
        log.file(
            pilot, aircraft, flight("11:00", "12:00").metered(hours(123.5), hours(124.5)), null);
    assertThat(slip.isDisputed()).isTrue();
    var next =
        log.file(
            pilot, aircraft, flight("13:00", "14:00").metered(hours(1_236), hours(1_237)), null);
    assertThat(next.disagreements()).isEmpty();
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_003));
  }

  @Test
  void aFlightThatOverlapsIsFiledAsDisputed() {
    UUID aircraft = hangar.single(pilot, "QX-OVR", BEGINNING);
    log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    var second = log.file(pilot, aircraft, flight("09:50", "10:30"), null);
    assertThat(second.isDisputed()).isTrue();
    Breaks.Line line = breaks.of(pilot, aircraft, NOW).get(0);
    assertThat(line.kind()).isEqualTo(BreakKind.OVERLAP);
    assertThat(line.amount()).isEqualTo(600);
    assertThat(line.isOpen()).isTrue();
    log.correct(pilot, second.id(), flight("10:10", "10:50"), "Wrong hour", null);
    assertThat(breaks.of(pilot, aircraft, NOW)).isEmpty();
  }

  @Test
  void anotherPlaceThanTheLastArrivalIsShownAndNoMore() {
    UUID aircraft = hangar.single(pilot, "QX-PLC", BEGINNING);
    log.file(
        pilot,
        aircraft,
        FlightDraft.of("Port Maddern", "Skell Island", at("09:00"), at("10:00"), 1, "I. Tarn"),
        null);
    var same =
        log.file(
            pilot,
            aircraft,
            FlightDraft.of("skell  island", "Port Maddern", at("11:00"), at("12:00"), 1, "I. Tarn"),
            null);
    assertThat(same.disagreements()).isEmpty();
    var other =
        log.file(
            pilot,
            aircraft,
            FlightDraft.of("Skell Island", "Port Maddern", at("13:00"), at("14:00"), 1, "I. Tarn"),
            null);
    assertThat(other.disagreements()).containsExactly(BreakKind.PLACE);
    assertThat(other.isDisputed()).isFalse();
    assertThat(breaks.of(pilot, aircraft, NOW).get(0).isOpen()).isFalse();
  }

  @Test
  void anExplanationHoldsForTheBreakThatWasSeenOnly() {
    UUID aircraft = metered("QX-EXP");
    log.file(pilot, aircraft, flight("09:00", "10:00").metered(hours(100), hours(101)), null);
    var second =
        log.file(
            pilot, aircraft, flight("12:00", "13:00").metered(hours(101.3), hours(102.3)), null);
    explain(aircraft, second.id(), false);
    var third =
        log.correct(
            pilot,
            second.id(),
            flight("12:00", "13:00").metered(hours(101.3), hours(102.4)),
            "Misread the closing",
            null);
    assertThat(breaks.of(pilot, aircraft, NOW).get(0).isOpen()).isFalse();
    log.correct(
        pilot,
        third.id(),
        flight("12:00", "13:00").metered(hours(101.4), hours(102.4)),
        "And the opening",
        null);
    assertThat(breaks.of(pilot, aircraft, NOW).get(0).isOpen()).isTrue();
    assertThat(total(aircraft, "hours")).isEqualTo(hours(6_002.4));
  }

  @Test
  void theRateIsTheMeanOfTheLastNinetyDaysUnlessAPersonStatesOne() {
    UUID aircraft = hangar.single(pilot, "QX-RAT", BEGINNING);
    log.file(pilot, aircraft, flight("09:00", "12:00"), null);
    LocalDate day = LocalDate.of(2025, 3, 10);
    UsageLine line = lines.of(pilot, aircraft, NOW);
    assertThat(line.meanPerDay(Counter.HOURS, day)).hasValueSatisfying(is("3"));
    assertThat(line.meanPerDay(Counter.HOURS, day.plusDays(9))).hasValueSatisfying(is("0.3"));
    assertThat(line.meanPerDay(Counter.HOURS, day.plusDays(89))).hasValueSatisfying(is("0.0333"));
    assertThat(line.meanPerDay(Counter.HOURS, day.plusDays(90))).hasValueSatisfying(is("0"));
    rates.state(
        company.viewer(Role.CONTROLLER),
        aircraft,
        Counter.HOURS,
        new java.math.BigDecimal("1.5"),
        null);
    assertThat(lines.of(pilot, aircraft, NOW).perDay(Counter.HOURS, day))
        .hasValueSatisfying(is("1.5"));
    assertThat(lines.of(pilot, aircraft, NOW).utilisation(day).toString()).contains("hours=1.5");
  }

  @Test
  void filingMovesTheAircraftsRevision() {
    UUID aircraft = hangar.single(pilot, "QX-REV", BEGINNING);
    long before = revisions.of(pilot, List.of(aircraft)).get(aircraft);
    log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    assertThat(revisions.of(pilot, List.of(aircraft)).get(aircraft)).isGreaterThan(before);
  }

  @Test
  void howOldTheHoursAre() {
    UUID aircraft = hangar.single(pilot, "QX-AGE", BEGINNING);
    assertThat(lines.of(pilot, aircraft, NOW).lastLanding()).isEmpty();
    log.file(pilot, aircraft, flight("14:00", "15:00"), null);
    log.file(pilot, aircraft, flight("09:00", "10:00"), null);
    UsageLine line = lines.of(pilot, aircraft, NOW);
    assertThat(line.lastLanding()).contains(at("15:00"));
    assertThat(line.lastFiledAt()).isPresent();
  }

  private static java.util.function.Consumer<java.math.BigDecimal> is(String amount) {
    return value -> assertThat(value).isEqualByComparingTo(amount);
  }

  private void refused(UUID aircraft, FlightDraft draft, String field) {
    assertThatThrownBy(() -> log.file(pilot, aircraft, draft, null))
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons()).extracting(Refusal.Reason::field).contains(field));
  }

  private void explain(UUID aircraft, UUID flight, boolean flown) {
    Long amount =
        breaks.of(pilot, aircraft, NOW).stream()
            .filter(line -> line.kind() == BreakKind.GAP)
            .findFirst()
            .orElseThrow()
            .amount();
    breaks.explain(
        company.viewer(Role.CONTROLLER),
        new Breaks.Explaining(flight, BreakKind.GAP, amount, flown, "Engine run", null));
  }

  private UUID metered(String registration) {
    return hangar.register(
        pilot, Particulars.of(registration, "Skerry 200", "S-3").byMeter("hour meter"), BEGINNING);
  }

  private void open(UUID aircraft, String counter, Long amount) {
    meters.open(
        company.viewer(Role.CONTROLLER),
        aircraft,
        new Meters.Opening(new Counter(counter), amount, BEGINNING, null, null, null));
  }

  private long total(UUID aircraft, String counter) {
    return lines.of(pilot, aircraft, NOW).totalAt(Instant.MAX, counter).orElseThrow();
  }

  private long total(UUID aircraft, View view) {
    return lines.of(pilot, aircraft, view).totalAt(Instant.MAX, "hours").orElseThrow();
  }

  private static FlightDraft flight(String takeOff, String landing) {
    return FlightDraft.of("Port Maddern", "Port Maddern", at(takeOff), at(landing), 1, "I. Tarn");
  }

  private static Instant at(String time) {
    return Instant.parse("2025-03-10T" + time + ":00Z");
  }
}
