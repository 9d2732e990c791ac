package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static trestle.fleet.Hangar.hours;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.people.Company;
import trestle.programme.LifeLimits.Binds;
import trestle.programme.LifeLimits.Countdown;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.server.StatementCount;
import trestle.standing.Force;
import trestle.standing.Standing;
import trestle.standing.Standings;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** Limits of part numbers: every component of the number carries them, wherever it is. */
@QuarkusTest
class LifeLimitsTest {
  private static final Instant BEGAN = Instant.parse("2025-01-01T00:00:00Z");
  private static final LocalDate TODAY = LocalDate.of(2025, 3, 28);
  private static Company company;
  private static int marks;

  @Inject Upkeep upkeep;
  @Inject Hangar hangar;
  @Inject JourneyLog log;
  @Inject Requirements requirements;
  @Inject DueItems dueItems;
  @Inject Extensions extensions;
  @Inject LifeLimits limits;
  @Inject Standings standings;

  private Viewer owner;
  private String mark;
  private UUID aircraft;
  private UUID engine;

  @BeforeEach
  void found() {
    if (company == null) {
      company = upkeep.company();
    }
    owner = company.viewer(Role.OWNER);
    mark = "L" + marks++;
    aircraft = hangar.single(owner, "QX-" + mark, BEGAN);
    engine = hangar.engine(owner, mark + "-1", BEGAN, hours(500), hours(500));
    hangar.fit(owner, engine, aircraft, "engine", BEGAN);
  }

  @Test
  void aLifeLimitOfAPartNumberHoldsWhatCarriesASpentOne() {
    UUID magneto = hangar.magneto(owner, mark + "-PN", "1", BEGAN);
    UUID spare = hangar.magneto(owner, mark + "-PN", "2", BEGAN);
    hangar.put(owner, magneto, engine, "left magneto", BEGAN);
    UUID limit = ofPart("Life", RequirementKind.LIFE_LIMIT, life("2"));
    fly(Instant.parse("2025-03-01T09:00:00Z"), 60);
    Countdown countdown = line(limit).limits().get(0);
    assertThat(countdown.used()).isEqualTo(hours(1));
    assertThat(countdown.limit()).isEqualTo(hours(2));
    assertThat(countdown.percent()).isEqualTo(50);
    assertThat(countdown.controlling()).isTrue();
    assertThat(dueItems.onComponent(owner, spare, trestle.ledger.View.asAt(TODAY)))
        .singleElement()
        .satisfies(item -> assertThat(item.controlling().remaining()).isEqualTo(hours(2)));

    fly(Instant.parse("2025-03-02T09:00:00Z"), 60);
    assertThat(line(limit).item().reckoning().spent()).isTrue();
    Standing standing = standings.now(owner, List.of(aircraft), TODAY).get(aircraft).standing();
    assertThat(standing.isHeld()).isTrue();
    assertThat(standing.reasons())
        .anyMatch(reason -> reason.sentence().contains("life limit reached"));
  }

  @Test
  void aLifeLimitHasNoTolerance() {
    Rule rule = Rule.first(Limit.Every.of(Counter.HOURS, "500").from(Rules.NEW).tolerance("10"));
    assertThatThrownBy(() -> ofPart("Life", RequirementKind.LIFE_LIMIT, rule))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("A life limit has no tolerance");
  }

  /** 14 CFR 135.421(a), as read in 2024: the maker's overhaul figures bind who flies for hire. */
  @Test
  void anOverhaulThatBindsForHireLimitsAndAdviceDoesNot() {
    Rule rule =
        Rule.first(
            Limit.Every.of(Counter.HOURS, "400").from(Rules.OVERHAUL),
            Limit.Every.of(Interval.ofMonths(144)).from(Rules.OVERHAUL));
    Terms overhaul = terms("Overhaul " + mark, RequirementKind.OVERHAUL, rule);
    UUID forHire = ofAircraftsEngine(overhaul.forbidding("hire"));
    UUID advice = ofAircraftsEngine(overhaul.withForce(Force.RECOMMENDED));
    assertThat(line(forHire).binds()).isEqualTo(Binds.FOR_HIRE);
    assertThat(line(advice).binds()).isEqualTo(Binds.RECOMMENDED);
    Standing standing = standings.now(owner, List.of(aircraft), TODAY).get(aircraft).standing();
    assertThat(standing.reasons())
        .filteredOn(reason -> reason.sentence().contains("Overhaul " + mark))
        .singleElement()
        .satisfies(
            reason -> {
              assertThat(reason.holds()).isFalse();
              assertThat(reason.sentence()).contains("not for hire", "100.0 h past its limit");
            });
  }

  @Test
  void anExtendedOverhaulCountsDownToItsNewPoint() {
    Rule rule = Rule.first(Limit.Every.of(Counter.HOURS, "600").from(Rules.OVERHAUL));
    UUID overhaul = ofAircraftsEngine(terms("Overhaul", RequirementKind.OVERHAUL, rule));
    extensions.grant(
        company.viewer(Role.CONTROLLER),
        new NewExtension(
            overhaul,
            aircraft,
            engine,
            TODAY.minusDays(1),
            List.of(0),
            hours(700),
            "The review board",
            "Letter 3",
            "",
            null));
    Countdown countdown = line(overhaul).limits().get(0);
    assertThat(countdown.reckoned().extended()).isTrue();
    assertThat(countdown.used()).isEqualTo(hours(500));
    assertThat(countdown.limit()).isEqualTo(hours(700));
  }

  @Test
  void thePageTakesAsManyStatementsForManyPartsAsForOne() throws Exception {
    UUID limit = ofPart("Life", RequirementKind.LIFE_LIMIT, life("2000"));
    hangar.put(owner, hangar.magneto(owner, mark + "-PN", "0", BEGAN), engine, "0", BEGAN);
    List<String> one = StatementCount.of(() -> limits.now(owner, List.of(aircraft), TODAY));
    for (int i = 1; i < 12; i++) {
      UUID part = hangar.magneto(owner, mark + "-PN", "" + i, BEGAN);
      hangar.put(owner, part, engine, "" + i, BEGAN);
    }
    List<String> many = StatementCount.of(() -> limits.now(owner, List.of(aircraft), TODAY));
    assertThat(many).hasSameSizeAs(one);
    assertThat(
            limits.now(owner, List.of(aircraft), TODAY).stream()
                .filter(line -> line.item().requirementId().equals(limit)))
        .hasSize(12);
  }

  private static Rule life(String hours) {
    return Rule.first(Limit.Fixed.at(Counter.HOURS, hours)).onlyOnce();
  }

  private Terms terms(String title, RequirementKind kind, Rule rule) {
    return Terms.of(title, kind, rule, owner.dateOf(BEGAN));
  }

  private UUID ofPart(String title, RequirementKind kind, Rule rule) {
    return requirements.create(
        owner,
        NewRequirement.ofPart(
            mark + "-PN", terms(title, kind, rule), owner.dateOf(BEGAN), "The maker"));
  }

  private UUID ofAircraftsEngine(Terms terms) {
    return requirements.create(
        owner,
        NewRequirement.ofAircraft(aircraft, "engine", terms, owner.dateOf(BEGAN), "The operator"));
  }

  private LifeLimits.Line line(UUID requirement) {
    return limits.now(owner, List.of(aircraft), TODAY).stream()
        .filter(line -> line.item().requirementId().equals(requirement))
        .findFirst()
        .orElseThrow();
  }

  private void fly(Instant takeOff, int minutes) {
    log.file(
        owner,
        aircraft,
        FlightDraft.of("PM", "PM", takeOff, takeOff.plusSeconds(60L * minutes), 1, "A. Pilot"),
        null);
  }
}
