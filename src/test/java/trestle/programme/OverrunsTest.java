package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;
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
import trestle.ledger.View;
import trestle.people.Company;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.standing.Subject;
import trestle.web.Role;
import trestle.web.Viewer;

/** Everything ever done or flown past a limit, whenever that comes to light. */
@QuarkusTest
class OverrunsTest {
  private static final LocalDate BEGAN = LocalDate.of(2025, 1, 1);
  private static final LocalDate END = LocalDate.of(2025, 6, 30);

  @Inject Upkeep upkeep;
  @Inject Hangar hangar;
  @Inject JourneyLog log;
  @Inject Compliances compliances;
  @Inject Extensions extensions;
  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject Programmes programmes;
  @Inject DueItems dueItems;
  @Inject Overruns overruns;

  private static Company company;
  private static int marks;

  private Viewer owner;
  private Viewer engineer;
  private UUID aircraft;

  @BeforeEach
  void found() {
    if (company == null) {
      company = upkeep.company();
    }
    owner = company.viewer(Role.OWNER);
    engineer = company.viewer(Role.ENGINEER);
    aircraft = upkeep.aircraft(owner, "QX-OV" + marks++, BEGAN, "hours=1000");
  }

  @Test
  void everyLateDoingIsListedWithTheFlightsPastItsLimit() {
    UUID ten =
        upkeep.requirement(
            owner,
            aircraft,
            "Ten",
            Rule.first(Limit.Every.of(Counter.HOURS, "10").tolerance("1")),
            BEGAN);
    upkeep.baseline(owner, ten, aircraft, BEGAN, "hours=1000");
    fly("01-10", 6);
    fly("01-11", 5);
    done(ten, "01-11");
    fly("02-01", 6);
    fly("02-02", 4);
    fly("02-03", 2);
    fly("02-04", 3);
    done(ten, "02-05");
    fly("03-01", 5);
    done(ten, "03-02");
    fly("03-03", 6);
    fly("03-04", 6);

    assertThat(all(END))
        .extracting(
            Overruns.Overrun::doneOn,
            Overruns.Overrun::flights,
            Overruns.Overrun::firstFlight,
            one -> one.limit().left().toString())
        .as("at 11 h of 10 + 1 h it was not late; twice then it was, once it still is")
        .containsExactly(
            org.assertj.core.api.Assertions.tuple(null, 1, day("03-04"), "-2"),
            org.assertj.core.api.Assertions.tuple(day("02-05"), 2, day("02-03"), "-5"));
    assertThat(all(day("02-02"))).as("as at a day before").isEmpty();

    // A flight found late: what was done in time turns out to have been done too late.
    fly("01-09", 2);
    assertThat(all(END))
        .extracting(Overruns.Overrun::doneOn)
        .containsExactly(null, day("02-05"), day("01-11"));
  }

  @Test
  void whatWasExtendedOrDueByAnotherRuleThenIsNotListed() {
    Terms monthly =
        Terms.of(
            "Certificate",
            RequirementKind.DOCUMENT,
            Rule.first(Limit.Every.of(Interval.parse("P1M"))),
            BEGAN);
    UUID paper = upkeep.requirement(owner, aircraft, monthly);
    done(paper, "01-05");
    fly("02-05", 1);
    fly("02-10", 1);
    done(paper, "02-20");
    assertThat(all(day("02-25")))
        .singleElement()
        .satisfies(
            one -> {
              assertThat(one.doneOn()).isEqualTo(day("02-20"));
              assertThat(one.flights()).as("on its last day it was good").isEqualTo(1);
              assertThat(one.firstFlight()).isEqualTo(day("02-10"));
            });
    Revision latest = requirementRecords.history(owner, paper).latest();
    requirements.revise(
        owner,
        new NewRevision(
            paper,
            latest.id(),
            monthly.withRule(Rule.first(Limit.Every.of(Interval.parse("P3M")))),
            day("03-01"),
            "Rule changed",
            "The authority",
            null));
    done(paper, "05-15");
    assertThat(all(day("05-16")))
        .extracting(Overruns.Overrun::doneOn)
        .containsExactly(day("02-20"));
  }

  /** What was flown past a part's limit stays with the aircraft that flew it. */
  @Test
  void aPartsOverrunIsListedWhereItWasFlown() {
    UUID other = upkeep.aircraft(owner, "QX-OV" + marks++, BEGAN, "hours=1000");
    Instant began = Upkeep.start(owner, BEGAN);
    UUID engine = hangar.engine(owner, "OV-" + marks, began, hours(500), hours(500));
    UUID fitment = hangar.fit(owner, engine, aircraft, "engine", began);
    UUID overhaul =
        requirements.create(
            owner,
            NewRequirement.ofComponent(
                engine,
                Terms.of(
                    "Oil change",
                    RequirementKind.SERVICE,
                    Rule.first(Limit.Every.of(Counter.HOURS, "5")),
                    BEGAN),
                BEGAN,
                "The authority"));
    compliances.file(
        engineer,
        NewCompliance.certified(overhaul, aircraft, engine, began, Usage.NONE, Upkeep.LICENCE));
    fly("02-01", 4);
    fly("02-02", 3);
    hangar.remove(owner, fitment, Upkeep.evening(owner, day("02-03")));
    hangar.fit(owner, engine, other, "engine", Upkeep.evening(owner, day("02-04")));
    compliances.file(
        engineer,
        NewCompliance.certified(
            overhaul,
            other,
            engine,
            Upkeep.evening(owner, day("02-05")),
            Usage.NONE,
            Upkeep.LICENCE));
    assertThat(all(END))
        .singleElement()
        .satisfies(
            one -> {
              assertThat(one.title()).isEqualTo("Oil change");
              assertThat(one.flights()).isEqualTo(1);
              assertThat(one.firstFlight()).isEqualTo(day("02-02"));
            });
    assertThat(of(other, END)).extracting(Overruns.Overrun::flights).containsExactly(0);
  }

  /** What it did not carry meanwhile was not late by. */
  @Test
  void whileARequirementIsExcludedNothingIsPastItsLimit() {
    UUID programme =
        programmes.create(
            owner, new Programmes.NewProgramme("Skerry " + marks, "Skerry 200", "", BEGAN, null));
    UUID ten =
        requirements.create(
            owner,
            NewRequirement.ofProgramme(
                programme,
                Subject.AIRCRAFT,
                Terms.of(
                    "Float inspection",
                    RequirementKind.INSPECTION,
                    Rule.first(Limit.Every.of(Counter.HOURS, "10")),
                    BEGAN),
                BEGAN,
                "The authority"));
    programmes.adopt(owner, aircraft, programme, BEGAN, null, null);
    upkeep.baseline(owner, ten, aircraft, BEGAN, "hours=1000");
    fly("02-01", 9);
    programmes.exclude(owner, aircraft, ten, day("02-02"), "On wheels", "The authority", null);
    fly("02-03", 4);
    fly("02-04", 4);
    assertThat(all(day("02-05"))).as("not carried").isEmpty();
    programmes.include(owner, aircraft, ten, day("02-10"), "On floats", "The authority", null);
    assertThat(all(day("02-10")))
        .as("due at once, with nothing flown since")
        .extracting(Overruns.Overrun::doneOn, Overruns.Overrun::flights)
        .containsExactly(org.assertj.core.api.Assertions.tuple(null, 0));
    UUID inTime = done(ten, "02-10");
    assertThat(all(day("02-20"))).as("done the day it was carried again").isEmpty();

    fly("02-10", 1);
    compliances.voided(engineer, inTime, "Done two days later", null);
    done(ten, "02-12");
    assertThat(all(day("02-20")))
        .as("flown once after it was carried again, and done late")
        .extracting(Overruns.Overrun::doneOn, Overruns.Overrun::flights)
        .containsExactly(org.assertj.core.api.Assertions.tuple(day("02-12"), 1));
  }

  private List<Overruns.Overrun> all(LocalDate day) {
    return of(aircraft, day);
  }

  private List<Overruns.Overrun> of(UUID which, LocalDate day) {
    View view = View.asAt(day);
    return overruns.of(
        owner, which, dueItems.dueItems(owner, List.of(which), view).get(which), view);
  }

  private void fly(String day, double length) {
    Instant off = Upkeep.start(owner, day(day)).plusSeconds(6 * 3600);
    log.file(
        owner,
        aircraft,
        FlightDraft.of("PM", "PM", off, off.plusSeconds(hours(length)), 1, "A. Pilot"),
        null);
  }

  private UUID done(UUID requirement, String day) {
    return upkeep.done(engineer, requirement, aircraft, day(day));
  }

  private static LocalDate day(String monthDay) {
    return LocalDate.parse("2025-" + monthDay);
  }
}
