package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.PartKind;
import trestle.fleet.Revisions;
import trestle.flights.JourneyLog;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.State;
import trestle.reckoning.Usage;
import trestle.server.StatementCount;
import trestle.standing.DueItem;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What is required, what was done, and what falls due from it, on a real database. */
@QuarkusTest
class UpkeepTest {
  private static final LocalDate BEGINNING = LocalDate.of(2025, 1, 1);
  private static final Rule HUNDRED = Rule.first(Limit.Every.of(Counter.HOURS, "100"));

  @Inject Upkeep upkeep;
  @Inject Programmes programmes;
  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject Compliances compliances;
  @Inject ComplianceRecords complianceRecords;
  @Inject Extensions extensions;
  @Inject DueItems dueItems;
  @Inject JourneyLog log;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject Revisions revisions;
  @Inject Ledger ledger;

  private Company company;
  private Viewer owner;
  private Viewer engineer;
  private Viewer controller;
  private Viewer pilot;

  @BeforeEach
  void found() {
    company = upkeep.company();
    owner = company.viewer(Role.OWNER);
    engineer = company.viewer(Role.ENGINEER);
    controller = company.viewer(Role.CONTROLLER);
    pilot = company.viewer(Role.PILOT);
  }

  @Test
  void largerWorkCountsForWhatItCoversThroughSeveralStepsAndNotTheOtherWay() {
    UUID aircraft = upkeep.aircraft(owner, "QX-COV", BEGINNING, "hours=1000");
    UUID fifty = requirement(aircraft, "50-hour");
    UUID hundred = covering(aircraft, "100-hour", fifty);
    UUID annual = covering(aircraft, "Annual", hundred);
    upkeep.flyTo(pilot, aircraft, "1030", day("2025-03-01"));
    upkeep.done(engineer, annual, aircraft, day("2025-03-01"));
    assertThat(due(fifty, aircraft, "2025-03-02")).isEqualTo("1130");
    assertThat(due(hundred, aircraft, "2025-03-02")).isEqualTo("1130");

    upkeep.flyTo(pilot, aircraft, "1050", day("2025-04-01"));
    upkeep.done(engineer, fifty, aircraft, day("2025-04-01"));
    assertThat(due(fifty, aircraft, "2025-04-02")).isEqualTo("1150");
    assertThat(due(annual, aircraft, "2025-04-02")).isEqualTo("1130");

    NewCompliance part =
        NewCompliance.certified(
            hundred, aircraft, null, evening("2025-04-03"), Usage.NONE, Upkeep.LICENCE);
    compliances.file(engineer, incomplete(part));
    assertThat(due(hundred, aircraft, "2025-04-04")).isEqualTo("1150");
    assertThat(upkeep.item(owner, fifty, aircraft, day("2025-04-04")).lastDone().coveredBy())
        .isNull();
  }

  @Test
  void coversMayNotGoRoundInACircleAndTheWayIsNamed() {
    UUID aircraft = upkeep.aircraft(owner, "QX-CIR", BEGINNING, "hours=1000");
    UUID small = requirement(aircraft, "Small");
    UUID middle = covering(aircraft, "Middle", small);
    UUID large = covering(aircraft, "Large", middle);
    Revision latest = requirementRecords.history(owner, small).latest();
    assertThatThrownBy(
            () ->
                requirements.revise(
                    owner,
                    new NewRevision(
                        small,
                        latest.id(),
                        latest.terms().covering(large),
                        BEGINNING,
                        "A mistake",
                        "The authority",
                        null)))
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons())
                    .containsExactly(
                        new Refusal.Reason(
                            "covers",
                            "That would go round in a circle: “Small” covers “Large” covers"
                                + " “Middle” covers “Small”.")));
    UUID ofEngine =
        requirements.create(
            owner,
            NewRequirement.ofAircraft(
                aircraft, "engine", terms("Oil change"), BEGINNING, "The authority"));
    assertThatThrownBy(() -> covering(aircraft, "Both", ofEngine))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("another kind of subject");
  }

  @Test
  void aFlightFoundLateMovesExactlyWhatWasDoneAfterIt() {
    UUID aircraft = upkeep.aircraft(owner, "QX-LAT", BEGINNING, "hours=1000");
    UUID before = requirement(aircraft, "Done before");
    UUID after = requirement(aircraft, "Done after");
    upkeep.fly(pilot, aircraft, Instant.parse("2025-03-01T12:00:00Z"), "5");
    upkeep.done(engineer, before, aircraft, day("2025-03-01"));
    upkeep.fly(pilot, aircraft, Instant.parse("2025-03-20T12:00:00Z"), "5");
    upkeep.done(engineer, after, aircraft, day("2025-03-20"));

    upkeep.fly(pilot, aircraft, Instant.parse("2025-03-10T12:00:00Z"), "2.5");
    DueItem early = upkeep.item(owner, before, aircraft, day("2025-03-21"));
    DueItem late = upkeep.item(owner, after, aircraft, day("2025-03-21"));
    assertThat(early.controlling().dueAt()).hasToString("1105");
    assertThat(early.controlling().left()).hasToString("92.5");
    assertThat(late.controlling().dueAt()).hasToString("1112.5");
    assertThat(late.controlling().left()).hasToString("100");
  }

  @Test
  void alsoOnADayOnWhichSummerTimeBeginsOrEnds() {
    // America/St_Johns: an hour skipped on 9 March 2025, an hour twice on 2 November 2025.
    for (String changing : List.of("2025-03-09", "2025-11-02")) {
      LocalDate day = day(changing);
      UUID aircraft = upkeep.aircraft(owner, "QX-S" + day.getMonthValue(), BEGINNING, "hours=1000");
      UUID night = requirement(aircraft, "In the night");
      UUID noon = requirement(aircraft, "At noon");
      Instant midnight = Upkeep.start(owner, day);
      certify(night, aircraft, midnight.plusSeconds(90 * 60));
      certify(noon, aircraft, day.atTime(12, 0).atZone(owner.zone()).toInstant());
      // Found late: from two to four hours after midnight, as the seconds pass.
      upkeep.fly(pilot, aircraft, midnight.plusSeconds(2 * 3600), "2");
      assertThat(due(night, aircraft, changing)).as(changing).isEqualTo("1100");
      assertThat(due(noon, aircraft, changing)).as(changing).isEqualTo("1102");
    }
  }

  @Test
  void aCorrectionMovesTheDuePointBackAndBothStay() {
    UUID aircraft = upkeep.aircraft(owner, "QX-COR", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.baseline(controller, hundred, aircraft, BEGINNING, "hours=990");
    upkeep.flyTo(pilot, aircraft, "1040", day("2025-03-01"));
    upkeep.flyTo(pilot, aircraft, "1080", day("2025-05-01"));
    UUID wrong = upkeep.done(engineer, hundred, aircraft, day("2025-05-01"));
    assertThat(due(hundred, aircraft, "2025-05-02")).isEqualTo("1180");

    UUID right =
        compliances.correct(
            engineer,
            wrong,
            NewCompliance.certified(
                hundred, aircraft, null, evening("2025-03-01"), Usage.NONE, Upkeep.LICENCE),
            "It was in March");
    assertThat(due(hundred, aircraft, "2025-05-02")).isEqualTo("1140");
    List<ComplianceLine> both =
        complianceRecords.history(owner, Set.of(hundred), aircraft, null, View.EVERYTHING).stream()
            .filter(line -> !line.baseline())
            .toList();
    assertThat(both).extracting(ComplianceLine::id).containsExactlyInAnyOrder(wrong, right);
    assertThat(complianceRecords.one(owner, wrong).correctedBy()).isEqualTo(right);
    assertThat(complianceRecords.one(owner, right).reason()).isEqualTo("It was in March");
    assertThatThrownBy(() -> compliances.voided(engineer, wrong, "Twice", null))
        .isInstanceOf(Stale.class);

    compliances.voided(engineer, right, "Never done", null);
    assertThat(due(hundred, aircraft, "2025-05-02")).isEqualTo("1090");
    assertThat(complianceRecords.history(owner, Set.of(hundred), aircraft, null, View.EVERYTHING))
        .hasSize(4);
  }

  @Test
  void asItWasKnownThenIsStillToBeSeen() {
    UUID aircraft = upkeep.aircraft(owner, "QX-VIE", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.baseline(controller, hundred, aircraft, BEGINNING, "hours=990");
    long known = ledger(owner);
    upkeep.done(engineer, hundred, aircraft, day("2025-05-01"));
    View then = new View(day("2025-05-02"), known);
    assertThat(item(hundred, aircraft, then).controlling().dueAt()).hasToString("1090");
    assertThat(due(hundred, aircraft, "2025-04-30")).isEqualTo("1090");
    assertThat(due(hundred, aircraft, "2025-05-02")).isEqualTo("1100");
  }

  @Test
  void theOrderOfFilingDoesNotMatter() {
    List<Integer> order = new ArrayList<>(List.of(0, 1, 2, 3, 4, 5));
    Random random = new Random();
    List<String> answers = new ArrayList<>();
    for (int round = 0; round < 6; round++) {
      UUID aircraft = upkeep.aircraft(owner, "QX-O" + round, BEGINNING, "hours=1000");
      UUID fifty =
          upkeep.requirement(
              owner,
              aircraft,
              "50-hour",
              Rule.first(Limit.Every.of(Counter.HOURS, "50").keepSchedule().window("2")),
              BEGINNING);
      UUID hundred = covering(aircraft, "100-hour", fifty);
      List<Runnable> filings =
          List.of(
              () -> upkeep.baseline(controller, fifty, aircraft, BEGINNING, "hours=998"),
              () -> upkeep.fly(pilot, aircraft, Instant.parse("2025-02-01T12:00:00Z"), "30"),
              () -> upkeep.done(engineer, hundred, aircraft, day("2025-02-02")),
              () -> upkeep.fly(pilot, aircraft, Instant.parse("2025-03-01T12:00:00Z"), "35"),
              () -> upkeep.fly(pilot, aircraft, Instant.parse("2025-03-10T12:00:00Z"), "17"),
              () -> upkeep.done(engineer, fifty, aircraft, day("2025-03-11")));
      order.forEach(one -> filings.get(one).run());
      answers.add(
          upkeep.item(owner, fifty, aircraft, day("2025-04-01")).reckoning()
              + "; "
              + upkeep.item(owner, hundred, aircraft, day("2025-04-01")).reckoning());
      Collections.shuffle(order, random);
    }
    assertThat(Set.copyOf(answers)).hasSize(1);
  }

  @Test
  void historyStaysWithTheSerialAndNotWithThePosition() {
    UUID one = upkeep.aircraft(owner, "QX-ONE", BEGINNING, "hours=1000");
    UUID two = upkeep.aircraft(owner, "QX-TWO", BEGINNING, "hours=2000");
    UUID programme =
        programmes.create(
            owner, new Programmes.NewProgramme("Skerry", "Skerry 200", "", BEGINNING, null));
    UUID oil =
        requirements.create(
            owner,
            NewRequirement.ofProgramme(
                programme,
                "engine",
                terms("Oil change").withRule(Rule.first(Limit.Every.of(Counter.HOURS, "50"))),
                BEGINNING,
                "The authority"));
    programmes.adopt(owner, one, programme, BEGINNING, null, null);
    programmes.adopt(owner, two, programme, BEGINNING, null, null);
    UUID engine = engine("E-1", 100);
    UUID fitted = fit(engine, one, BEGINNING);
    upkeep.flyTo(pilot, one, "1010", day("2025-02-01"));
    compliances.file(
        engineer,
        NewCompliance.certified(
            oil, one, engine, evening("2025-02-01"), Usage.NONE, Upkeep.LICENCE));
    assertThat(onEngine(one, "2025-02-02").controlling().dueAt()).hasToString("160");

    fitments.remove(
        engineer, new Fitments.Remove(fitted, noon("2025-03-01"), "Swapped", true, null));
    fit(engine, two, day("2025-03-02"));
    upkeep.flyTo(pilot, two, "2005", day("2025-04-01"));
    assertThat(dueItems.dueItems(owner, List.of(one), at("2025-04-02")).get(one)).isEmpty();
    DueItem moved = onEngine(two, "2025-04-02");
    assertThat(moved.controlling().dueAt()).hasToString("160");
    assertThat(moved.controlling().left()).hasToString("45");
  }

  @Test
  void whatIsNotKnownIsSaidAndNeverZero() {
    UUID aircraft = upkeep.aircraft(owner, "QX-UNK", BEGINNING, "hours=1000");
    UUID never = requirement(aircraft, "Never done");
    UUID cycles =
        upkeep.requirement(
            owner,
            aircraft,
            "By cycles",
            Rule.first(Limit.Every.of(new Counter("engine-cycles"), "100")),
            BEGINNING);
    upkeep.baseline(controller, cycles, aircraft, BEGINNING, "");
    DueItem first = upkeep.item(owner, never, aircraft, day("2025-02-01"));
    assertThat(first.state()).isEqualTo(State.UNKNOWN);
    assertThat(first.missing())
        .containsExactly("Nothing says when it was last done, nor from where it counts.");
    DueItem second = upkeep.item(owner, cycles, aircraft, day("2025-02-01"));
    assertThat(second.state()).isEqualTo(State.UNKNOWN);
    assertThat(second.missing())
        .contains("The total of engine cycles of QX-UNK is not known.")
        .contains("The engine cycles when it was last done are not known.");
  }

  @Test
  void aComponentWithoutTimeSinceNewStillCountsSinceOverhaul() {
    UUID engine =
        components.register(
            owner,
            new Components.Registering(
                PartKind.ENGINE,
                "TARN-360",
                "E-9",
                "Engine",
                "",
                Upkeep.start(owner, BEGINNING),
                Map.of(Counter.HOURS, new Components.Run(null, 400L * 3600)),
                null,
                null,
                null));
    Rule overhaul = Rule.first(Limit.Every.of(Counter.HOURS, "2000").from("overhaul"));
    Rule life = Rule.first(Limit.Fixed.at(Counter.HOURS, "5000")).onlyOnce();
    for (Rule rule : List.of(overhaul, life)) {
      requirements.create(
          owner,
          NewRequirement.ofComponent(
              engine, terms("An engine's").withRule(rule), BEGINNING, "The authority"));
    }
    List<DueItem> items = dueItems.onComponent(owner, engine, at("2025-02-01"));
    assertThat(items.get(0).controlling().left()).hasToString("1600");
    assertThat(items.get(1).state()).isEqualTo(State.UNKNOWN);
  }

  @Test
  void workDueWithOtherWorkFallsDueWithIt() {
    UUID aircraft = upkeep.aircraft(owner, "QX-WIT", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.baseline(controller, hundred, aircraft, BEGINNING, "hours=990");
    UUID deferred =
        upkeep.requirement(
            owner,
            aircraft,
            "At the next inspection",
            Rule.first(new Limit.With(hundred.toString())).onlyOnce(),
            BEGINNING);
    assertThat(upkeep.item(owner, deferred, aircraft, day("2025-02-01")).state())
        .isEqualTo(State.AHEAD);
    upkeep.done(engineer, hundred, aircraft, day("2025-03-01"));
    assertThat(upkeep.item(owner, deferred, aircraft, day("2025-03-02")).state())
        .isEqualTo(State.OVERDUE);
    upkeep.done(engineer, deferred, aircraft, day("2025-03-01"));
    assertThat(upkeep.item(owner, deferred, aircraft, day("2025-03-02")).state())
        .isEqualTo(State.DONE);
  }

  @Test
  void anExtensionPutsOffOneOccurrenceOnly() {
    UUID aircraft = upkeep.aircraft(owner, "QX-EXT", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.baseline(controller, hundred, aircraft, BEGINNING, "hours=1000");
    NewExtension asked = extension(hundred, aircraft, 1_120 * 3_600);
    UUID granted = extensions.grant(controller, asked);
    DueItem extended = upkeep.item(owner, hundred, aircraft, day("2025-03-01"));
    assertThat(extended.controlling().dueAt()).hasToString("1120");
    assertThat(extended.extensions()).singleElement().extracting("reference").isEqualTo("EXT-1");
    upkeep.flyTo(pilot, aircraft, "1110", day("2025-05-01"));
    upkeep.done(engineer, hundred, aircraft, day("2025-05-01"));
    DueItem next = upkeep.item(owner, hundred, aircraft, day("2025-05-02"));
    assertThat(next.controlling().dueAt()).hasToString("1210");
    assertThat(next.controlling().overrun()).isFalse();
    assertThat(next.extensions()).isEmpty();

    extensions.voided(controller, granted, "Never granted");
    assertThat(upkeep.item(owner, hundred, aircraft, day("2025-05-02")).controlling().overrun())
        .isTrue();
    assertThat(extensions.history(owner, hundred, aircraft, null, View.EVERYTHING)).hasSize(2);
    assertThatThrownBy(
            () -> extensions.grant(controller, extension(hundred, aircraft, 1_050 * 3_600)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("later than");
  }

  @Test
  void anExtensionGrantedOnTheDayOfTheWorkIsOfTheNext() {
    UUID aircraft = upkeep.aircraft(owner, "QX-EXD", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.baseline(controller, hundred, aircraft, BEGINNING, "hours=1000");
    upkeep.flyTo(pilot, aircraft, "1100", day("2025-02-01"));
    upkeep.done(engineer, hundred, aircraft, day("2025-02-01"));
    extensions.grant(controller, extension(hundred, aircraft, 1_220 * 3_600));
    assertThat(upkeep.item(owner, hundred, aircraft, day("2025-03-01")).controlling().dueAt())
        .hasToString("1220");
  }

  @Test
  void afterAnOverrunAnEngineerStatesFromWhereItCounts() {
    UUID aircraft = upkeep.aircraft(owner, "QX-OVR", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.baseline(controller, hundred, aircraft, BEGINNING, "hours=1000");
    upkeep.flyTo(pilot, aircraft, "1112", day("2025-03-01"));
    upkeep.done(engineer, hundred, aircraft, day("2025-03-01"));
    assertThat(upkeep.limit(owner, hundred, aircraft, day("2025-03-02")).overrun()).isTrue();
    assertThatThrownBy(
            () -> upkeep.baseline(controller, hundred, aircraft, day("2025-03-02"), "hours=1100"))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("engineer");
    NewCompliance from =
        NewCompliance.certified(
                hundred,
                aircraft,
                null,
                evening("2025-03-01").plusSeconds(60),
                Usage.parse("hours=1100"),
                Upkeep.LICENCE)
            .asBaseline();
    assertThatThrownBy(() -> compliances.file(engineer, from))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Reference");
    compliances.file(engineer, referring(from, "Letter 7"));
    var limit = upkeep.limit(owner, hundred, aircraft, day("2025-03-02"));
    assertThat(limit.overrun()).isFalse();
    assertThat(limit.dueAt()).hasToString("1200");
  }

  @Test
  void readingsSignedOtherwiseThanReckonedAreListedWithBoth() {
    UUID aircraft = upkeep.aircraft(owner, "QX-DIF", BEGINNING, "hours=1000 landings=500");
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.flyTo(pilot, aircraft, "1040", day("2025-03-01"));
    for (String signed : List.of("hours=1040.05 landings=505", "hours=1043.2 landings=505")) {
      compliances.file(
          engineer,
          NewCompliance.certified(
              hundred, aircraft, null, evening("2025-03-01"), Usage.parse(signed), Upkeep.LICENCE));
    }
    var listed = complianceRecords.discrepancies(owner, List.of(aircraft), at("2025-04-01"));
    assertThat(listed).hasSize(1);
    assertThat(listed.get(0).requirement()).isEqualTo("100-hour");
    assertThat(listed.get(0).signed()).isEqualTo("hours 1043.2");
    assertThat(listed.get(0).reckoned()).isEqualTo("hours 1040");
    assertThat(due(hundred, aircraft, "2025-04-01")).isEqualTo("1140");
  }

  @Test
  void anEngineerCertifiesUnderALicenceAndOthersTranscribe() {
    UUID aircraft = upkeep.aircraft(owner, "QX-WHO", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    Instant when = evening("2025-03-01");
    NewCompliance certified =
        NewCompliance.certified(hundred, aircraft, null, when, Usage.NONE, Upkeep.LICENCE);
    assertRefused(() -> compliances.file(controller, certified), "transcribed-from");
    assertRefused(() -> compliances.file(pilot, certified), "transcribed-from");
    assertRefused(
        () ->
            compliances.file(
                engineer,
                NewCompliance.certified(hundred, aircraft, null, when, Usage.NONE, "E-99")),
        "licence");
    assertRefused(
        () ->
            compliances.file(
                pilot,
                NewCompliance.transcribed(hundred, aircraft, null, when, Usage.NONE, "Log 3")),
        "");
    assertRefused(
        () ->
            compliances.file(
                engineer,
                NewCompliance.certified(
                    hundred,
                    aircraft,
                    null,
                    Instant.now().plusSeconds(3_600),
                    Usage.NONE,
                    Upkeep.LICENCE)),
        "on");
    UUID copied =
        compliances.file(
            controller,
            NewCompliance.transcribed(
                hundred, aircraft, null, when, Usage.parse("hours=1000"), "Airframe log 3"));
    assertThat(complianceRecords.one(owner, copied).isTranscribed()).isTrue();
  }

  @Test
  void twoWhoReviseOneRequirementAtOnce() {
    UUID aircraft = upkeep.aircraft(owner, "QX-STA", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    Revision seen = requirementRecords.history(owner, hundred).latest();
    requirements.revise(owner, revision(seen, "By the owner"));
    assertThatThrownBy(() -> requirements.revise(controller, revision(seen, "By the controller")))
        .isInstanceOf(Stale.class);
    assertThat(requirementRecords.history(owner, hundred).revisions())
        .extracting(one -> one.terms().title())
        .containsExactly("100-hour", "By the owner");
  }

  @Test
  void aRevisionCountsFromItsDayAndTheEarlierOneBefore() {
    UUID aircraft = upkeep.aircraft(owner, "QX-REV", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.baseline(controller, hundred, aircraft, BEGINNING, "hours=1000");
    Revision seen = requirementRecords.history(owner, hundred).latest();
    requirements.revise(
        owner,
        new NewRevision(
            hundred,
            seen.id(),
            seen.terms().withRule(Rule.first(Limit.Every.of(Counter.HOURS, "50"))),
            day("2025-03-01"),
            "Manual revision 4",
            "The authority",
            null));
    assertThat(due(hundred, aircraft, "2025-02-28")).isEqualTo("1100");
    assertThat(due(hundred, aircraft, "2025-03-01")).isEqualTo("1050");
    requirements.withdraw(
        owner,
        hundred,
        requirementRecords.history(owner, hundred).latest().id(),
        day("2025-04-01"),
        "Superseded",
        "The authority");
    assertThat(dueItems.dueItems(owner, List.of(aircraft), at("2025-04-01")).get(aircraft))
        .isEmpty();
    assertThat(due(hundred, aircraft, "2025-03-31")).isEqualTo("1050");
  }

  @Test
  void whatARegistrationIsSparedItDoesNotCarry() {
    UUID aircraft = upkeep.aircraft(owner, "QX-EXC", BEGINNING, "hours=1000");
    UUID programme =
        programmes.create(
            owner, new Programmes.NewProgramme("Skerry", "Skerry 200", "", BEGINNING, null));
    UUID autopilot =
        requirements.create(
            owner,
            NewRequirement.ofProgramme(
                programme, "aircraft", terms("Autopilot"), BEGINNING, "The authority"));
    programmes.adopt(owner, aircraft, programme, BEGINNING, null, null);
    assertRefused(
        () -> programmes.exclude(owner, aircraft, autopilot, day("2025-02-01"), "", "A", null),
        "reason");
    programmes.exclude(
        owner, aircraft, autopilot, day("2025-02-01"), "None fitted", "The authority", null);
    assertThat(dueItems.dueItems(owner, List.of(aircraft), at("2025-01-31")).get(aircraft))
        .hasSize(1);
    assertThat(dueItems.dueItems(owner, List.of(aircraft), at("2025-02-01")).get(aircraft))
        .isEmpty();
    programmes.include(
        owner, aircraft, autopilot, day("2025-03-01"), "One was fitted", "The authority", null);
    assertThat(dueItems.dueItems(owner, List.of(aircraft), at("2025-03-01")).get(aircraft))
        .hasSize(1);
  }

  @Test
  void everyFilingMovesTheAircraftsRevision() {
    UUID aircraft = upkeep.aircraft(owner, "QX-BMP", BEGINNING, "hours=1000");
    long before = revision(aircraft);
    UUID hundred = requirement(aircraft, "100-hour");
    upkeep.baseline(controller, hundred, aircraft, BEGINNING, "hours=1000");
    UUID done = upkeep.done(engineer, hundred, aircraft, day("2025-03-01"));
    compliances.voided(engineer, done, "Never done", null);
    extensions.grant(controller, extension(hundred, aircraft, 1_120 * 3_600));
    requirements.revise(
        owner, revision(requirementRecords.history(owner, hundred).latest(), "Renamed"));
    assertThat(revision(aircraft)).isEqualTo(before + 6);
  }

  @Test
  void anotherOperatorsAreNotHere() {
    UUID aircraft = upkeep.aircraft(owner, "QX-WAL", BEGINNING, "hours=1000");
    UUID hundred = requirement(aircraft, "100-hour");
    UUID done = upkeep.done(engineer, hundred, aircraft, day("2025-03-01"));
    Viewer stranger = upkeep.company().viewer(Role.ENGINEER);
    assertThatThrownBy(() -> requirementRecords.history(stranger, hundred))
        .isInstanceOf(NotHere.class);
    assertThatThrownBy(() -> complianceRecords.one(stranger, done)).isInstanceOf(NotHere.class);
    assertThatThrownBy(() -> upkeep.done(stranger, hundred, aircraft, day("2025-03-02")))
        .isInstanceOf(NotHere.class);
    assertThat(dueItems.dueItems(stranger, List.of(aircraft), at("2025-04-01")).get(aircraft))
        .isEmpty();
  }

  @Test
  void manyAircraftTakeNoMoreStatementsThanOne() throws Exception {
    List<UUID> fleet = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      UUID aircraft = upkeep.aircraft(owner, "QX-N" + i, BEGINNING, "hours=1000");
      UUID engine = engine("N-" + i, 100);
      fit(engine, aircraft, BEGINNING);
      for (int n = 0; n <= i; n++) {
        UUID requirement = requirement(aircraft, "Requirement " + n);
        upkeep.done(engineer, requirement, aircraft, day("2025-03-01"));
      }
      fleet.add(aircraft);
    }
    View view = at("2025-04-01");
    List<String> one = StatementCount.of(() -> dueItems.dueItems(owner, fleet.subList(0, 1), view));
    List<String> all = StatementCount.of(() -> dueItems.dueItems(owner, fleet, view));
    assertThat(all).hasSameSizeAs(one);
    assertThat(all).hasSizeLessThan(30);
  }

  private UUID requirement(UUID aircraft, String title) {
    return upkeep.requirement(owner, aircraft, title, HUNDRED, BEGINNING);
  }

  private UUID covering(UUID aircraft, String title, UUID... covered) {
    return upkeep.requirement(owner, aircraft, terms(title).covering(covered));
  }

  private static Terms terms(String title) {
    return Terms.of(title, RequirementKind.INSPECTION, HUNDRED, BEGINNING);
  }

  private static NewRevision revision(Revision seen, String title) {
    Terms terms = Terms.of(title, RequirementKind.INSPECTION, seen.terms().rule(), BEGINNING);
    return new NewRevision(
        seen.requirementId(), seen.id(), terms, BEGINNING, "A reason", "The authority", null);
  }

  private NewExtension extension(UUID requirement, UUID aircraft, long newDue) {
    return new NewExtension(
        requirement,
        aircraft,
        null,
        day("2025-02-01"),
        List.of(0),
        newDue,
        "The authority",
        "EXT-1",
        "",
        null);
  }

  private static NewCompliance incomplete(NewCompliance asked) {
    return new NewCompliance(
        asked.requirementId(),
        asked.aircraftId(),
        asked.componentId(),
        asked.baseline(),
        asked.at(),
        asked.readings(),
        asked.workReference(),
        asked.certifiedBy(),
        asked.licenceNumber(),
        asked.transcribedFrom(),
        false,
        null,
        "",
        null);
  }

  private static NewCompliance referring(NewCompliance asked, String reference) {
    return new NewCompliance(
        asked.requirementId(),
        asked.aircraftId(),
        asked.componentId(),
        asked.baseline(),
        asked.at(),
        asked.readings(),
        reference,
        "",
        asked.licenceNumber(),
        "",
        true,
        null,
        "",
        null);
  }

  private void certify(UUID requirement, UUID aircraft, Instant at) {
    compliances.file(
        engineer,
        NewCompliance.certified(requirement, aircraft, null, at, Usage.NONE, Upkeep.LICENCE));
  }

  private UUID engine(String serial, long hours) {
    return components.register(
        owner,
        new Components.Registering(
            PartKind.ENGINE,
            "TARN-360",
            serial,
            "Engine Tarn 360",
            "",
            Upkeep.start(owner, BEGINNING),
            Map.of(Counter.HOURS, new Components.Run(hours * 3_600, hours * 3_600)),
            null,
            null,
            null));
  }

  private UUID fit(UUID engine, UUID aircraft, LocalDate on) {
    return fitments.fit(
        engineer, new Fitments.Fit(engine, aircraft, "engine", Upkeep.start(owner, on), null));
  }

  private DueItem onEngine(UUID aircraft, String today) {
    return dueItems.dueItems(owner, List.of(aircraft), at(today)).get(aircraft).get(0);
  }

  private String due(UUID requirement, UUID aircraft, String today) {
    return upkeep.limit(owner, requirement, aircraft, day(today)).dueAt().toString();
  }

  private DueItem item(UUID requirement, UUID aircraft, View view) {
    return dueItems.dueItems(owner, List.of(aircraft), view).get(aircraft).stream()
        .filter(item -> item.requirementId().equals(requirement))
        .findFirst()
        .orElseThrow();
  }

  private long revision(UUID aircraft) {
    return revisions.of(owner, List.of(aircraft)).get(aircraft);
  }

  private long ledger(Viewer viewer) {
    return upkeep.filing(viewer, () -> ledger.head(viewer.operatorId()).size());
  }

  private Instant evening(String day) {
    return Upkeep.evening(owner, day(day));
  }

  private Instant noon(String day) {
    return day(day).atTime(12, 0).atZone(owner.zone()).toInstant();
  }

  private static View at(String day) {
    return View.asAt(day(day));
  }

  private static LocalDate day(String day) {
    return LocalDate.parse(day);
  }

  private static void assertRefused(
      org.assertj.core.api.ThrowableAssert.ThrowingCallable filing, String field) {
    assertThatThrownBy(filing)
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal ->
                assertThat(refusal.reasons())
                    .extracting(Refusal.Reason::field)
                    .containsExactly(field));
  }
}
