package trestle.defects;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.assertj.core.api.ThrowableAssert.ThrowingCallable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.Particulars;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Proof;
import trestle.profiles.Examples;
import trestle.profiles.NewProfile;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.programme.Compliances;
import trestle.programme.NewCompliance;
import trestle.programme.NewRequirement;
import trestle.programme.RequirementKind;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.DeferralClock.Category;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.signing.SignatureLine;
import trestle.signing.Signatures;
import trestle.standing.DueItem;
import trestle.standing.Reason;
import trestle.standing.Standing;
import trestle.standing.Standings;
import trestle.standing.Subject;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Deferring by the use cases: clocks, entitlement, extensions, what they do to the standing. */
@QuarkusTest
class DeferralTest {
  private static final Instant BEGINNING = Instant.parse("2000-01-01T00:00:00Z");
  private static final String LICENCE = "E-1";
  private static final NewDeferral.Conditions NONE = NewDeferral.Conditions.NONE;
  private static int companies;

  @Inject Deferrals deferrals;
  @Inject DeferralExtensions extensions;
  @Inject DeferralItems items;
  @Inject Triages triages;
  @Inject Defects defects;
  @Inject Rectifications rectifications;
  @Inject OpenDefects open;
  @Inject Standings standings;
  @Inject RuleProfiles profiles;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject JourneyLog log;
  @Inject Fleet fleet;
  @Inject Operators operators;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject Signatures signatures;

  private Company company;
  private Viewer engineer;
  private Viewer pilot;
  private UUID aircraft;

  @BeforeEach
  void found() {
    company = Company.founded("deferrals-" + companies++, operators, members);
    engineer = company.viewer(Role.ENGINEER);
    pilot = company.viewer(Role.PILOT);
    members.addLicence(
        company.viewer(Role.OWNER),
        engineer.personId(),
        new Members.NewLicence(LICENCE, "Licensed engineer", "", "", null));
    aircraft =
        fleet.register(
            company.viewer(Role.OWNER),
            new Fleet.Registering(
                Particulars.of("QX-SOR", "Skerry 200", "S-1"),
                List.of(),
                BEGINNING,
                Map.of(Counter.HOURS, Hangar.hours(6_000), Counter.LANDINGS, 2_000L),
                null));
  }

  /**
   * Check cases 22 and 23: FAA MMEL Policy Letter 25 Revision 24, pages 5 and 7, as quoted:
   * recorded at 10:00 on 26 January. 24: the same rule, our arithmetic. 26: a line pilot's worked
   * example.
   */
  @ParameterizedTest
  @CsvSource({
    "B, 2025-01-26T10:00:00Z, 2025-01-29",
    "C, 2025-01-26T10:00:00Z, 2025-02-05",
    "D, 2025-01-26T10:00:00Z, 2025-05-26",
    "D, 2024-01-26T10:00:00Z, 2024-05-25",
    "C, 2002-09-10T10:00:00Z, 2002-09-20"
  })
  void daysCountFromTheDayAfterDiscovery(Category category, Instant found, LocalDate lastDay) {
    profile("part-m");
    UUID deferral = defer(report(found), category, found.plusSeconds(7200));
    assertThat(deferrals.entry(engineer, deferral).deferral().lastDay()).isEqualTo(lastDay);
    assertThat(item(lastDay).reckoning().spent()).isFalse();
    assertThat(standing(lastDay).isHeld()).isFalse();
    assertThat(item(lastDay.plusDays(1)).reckoning().spent()).isTrue();
    assertThat(standing(lastDay.plusDays(1)).isHeld()).isTrue();
    assertThat(standing(lastDay.plusDays(1)).reasons()).hasSize(1);
  }

  /** Check case 27: an engineer's worked example: A "2 days", found on 1 January at 16:30. */
  @Test
  void categoryAInDaysLeavesDiscoveryOutToo() {
    profile("part-m");
    Instant found = Instant.parse("2025-01-01T16:30:00Z");
    UUID deferral = deferA(report(found), DeferralUnit.DAYS, 2L, found.plusSeconds(60));
    DeferralSheet sheet = deferrals.entry(engineer, deferral).deferral();
    assertThat(sheet.lastDay()).isEqualTo("2025-01-03");
    assertThat(sheet.until()).isEqualTo("23:59 UTC (20:29 local) on 3 January 2025");
  }

  /** PL-25 Rev 24, as quoted: days on which no flight begins don't count, nor does discovery. */
  @Test
  void flightDaysAreThoseOnWhichAFlightBegins() {
    profile("part-91");
    Instant found = Instant.parse("2025-01-01T16:30:00Z");
    deferA(report(found), DeferralUnit.FLIGHT_DAYS, 2L, found.plusSeconds(60));
    fly("2025-01-01T18:00:00Z");
    fly("2025-01-03T12:00:00Z");
    fly("2025-01-03T15:00:00Z");
    fly("2025-01-05T12:00:00Z");
    assertThat(item(LocalDate.parse("2025-01-05")).reckoning().spent()).isFalse();
    assertThat(item(LocalDate.parse("2025-01-06")).reckoning().spent()).isTrue();
    assertThat(item(LocalDate.parse("2025-01-04")).controlling().left().units()).isEqualTo(1);
  }

  /** PL-25 Rev 24, as quoted: flights, cycles and hours are tracked from the deferral. */
  @Test
  void flightsAndHoursCountFromTheDeferral() {
    profile("part-91");
    Instant found = Instant.parse("2025-01-01T08:00:00Z");
    UUID first = report(found);
    fly("2025-01-01T12:00:00Z");
    deferA(first, DeferralUnit.FLIGHTS, 2L, Instant.parse("2025-01-01T20:00:00Z"));
    fly("2025-01-02T12:00:00Z");
    assertThat(item(LocalDate.parse("2025-01-02")).controlling().left().units()).isEqualTo(1);
    fly("2025-01-02T15:00:00Z");
    assertThat(item(LocalDate.parse("2025-01-02")).reckoning().spent()).isTrue();
  }

  @Test
  void hoursAreTheAircraftsOwn() {
    profile("part-91");
    Instant found = Instant.parse("2025-01-01T08:00:00Z");
    fly("2025-01-01T12:00:00Z");
    deferA(report(found), DeferralUnit.HOURS, 5400L, Instant.parse("2025-01-01T20:00:00Z"));
    fly("2025-01-02T12:00:00Z");
    assertThat(item(LocalDate.parse("2025-01-02")).controlling().left().toString())
        .isEqualTo("0.5");
    fly("2025-01-02T15:00:00Z");
    assertThat(standing(LocalDate.parse("2025-01-02")).isHeld()).isTrue();
  }

  /**
   * Check case 50: AMC M.A.403(d): a defect of 3 May keeps its date, however late it is deferred.
   */
  @Test
  void aDefectKeepsItsOriginalDate() {
    profile("part-m");
    UUID defect = report(Instant.parse("2025-05-03T09:00:00Z"));
    UUID deferral = defer(defect, Category.D, Instant.parse("2025-06-20T09:00:00Z"));
    Deferrals.Entry entry = deferrals.entry(engineer, deferral);
    assertThat(entry.defect().foundOn()).isEqualTo("2025-05-03");
    assertThat(entry.deferral().lastDay()).isEqualTo("2025-08-31");
    assertRefused(
        () ->
            defer(
                report(Instant.parse("2025-05-03T09:00:00Z")),
                Category.C,
                Instant.parse("2025-06-20T09:00:00Z")),
        "category",
        "Its interval ran out on 13 May 2025: it counts from the day the defect was found, 3 May"
            + " 2025");
  }

  /**
   * The day of discovery is the day in the time base: 22:00 in St. John's is the next day in UTC.
   */
  @Test
  void theTimeBaseDecidesTheDayOfDiscovery() {
    profile("part-m");
    Instant late = Instant.parse("2025-01-27T01:30:00Z");
    UUID deferral = defer(report(late), Category.B, late.plusSeconds(60));
    Deferrals.Entry entry = deferrals.entry(engineer, deferral);
    assertThat(entry.defect().foundOn()).isEqualTo("2025-01-26");
    assertThat(entry.deferral().lastDay()).isEqualTo("2025-01-30");
  }

  /** West of Greenwich the end of a day is the next day in UTC. */
  @Test
  void aDefectReportedByItsDayAloneIsOfThatDayInEitherTimeBase() {
    assertThat(foundOn("26 January 2025", "2025-03-01T12:00:00Z"))
        .isEqualTo("2025-01-26T23:59:59Z");
    assertThat(foundOn("26 January 2025", "2025-01-26T20:00:00Z"))
        .isEqualTo("2025-01-26T20:00:00Z");
    assertThat(foundOn("26 January 2025", "2025-01-27T02:00:00Z"))
        .isEqualTo("2025-01-26T23:59:59Z");
    profile("part-m");
    UUID defect = report(foundOn("26 January 2025", "2025-01-27T02:00:00Z"));
    UUID deferral = defer(defect, Category.B, Instant.parse("2025-01-27T02:00:00Z"));
    Deferrals.Entry entry = deferrals.entry(engineer, deferral);
    assertThat(entry.defect().foundOn()).isEqualTo("2025-01-26");
    assertThat(entry.deferral().lastDay()).isEqualTo("2025-01-29");
  }

  private Instant foundOn(String day, String now) {
    Form form =
        Form.blank().with("words", "Hum").with("judgement", "can-fly").with("found-on", day);
    return new DefectForm(form, pilot, Instant.parse(now), List.of()).read().discoveredAt();
  }

  /** Check case 29: ORO.MLR.105(f)(2), read in the UK text: 3 more days at most, once only. */
  @Test
  void easaExtendsBOnceByItsOwnLength() {
    profile("part-m");
    UUID deferral = deferredB();
    assertRefused(
        () -> extend(deferral, "2025-02-02"),
        "new-last-day",
        "New last day must be 1 February 2025 at the latest");
    extend(deferral, "2025-02-01");
    assertThat(deferrals.entry(engineer, deferral).deferral().lastDay()).isEqualTo("2025-02-01");
    assertThat(standing(LocalDate.parse("2025-02-01")).isHeld()).isFalse();
    assertThat(standing(LocalDate.parse("2025-02-02")).isHeld()).isTrue();
    assertRefused(
        () -> extend(deferral, "2025-02-03"), "new-last-day", "It was extended once already");
  }

  /** Check case 30: FAA Order 8900.1, 4-689, as quoted; ORO.MLR.105(f), read in the UK text. */
  @Test
  void categoryDIsExtendedByEasaAndNotByTheFaaAndANever() {
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    profile("part-91");
    UUID faa = defer(report(found), Category.D, found);
    assertRefused(
        () -> extend(faa, "2025-06-01"),
        "new-last-day",
        "Category D is not extended under this rule profile");
    UUID a = deferA(report(found), DeferralUnit.DAYS, 5L, found);
    assertRefused(
        () -> extend(a, "2025-02-02"),
        "new-last-day",
        "Category A states its own interval and is not extended.");
    profile("part-m");
    extend(faa, "2025-06-01");
    assertThat(deferrals.entry(engineer, faa).deferral().extensions()).hasSize(1);
    assertRefused(
        () -> extend(a, "2025-02-02"),
        "new-last-day",
        "Category A states its own interval and is not extended.");
  }

  @Test
  void anOldDeferralIsCopiedMarkedAndStillRunsOut() {
    profile("part-m");
    Viewer controller = company.viewer(Role.CONTROLLER);
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    UUID defect = report(found);
    NewDeferral asked =
        asked(defect, found.plusSeconds(7200), Role.ENGINEER, "E-OLD", Category.B, NONE);
    OldPaper paper = new OldPaper("log 3, page 41", "S. Brandt");
    assertRefused(
        () -> deferrals.transcribe(controller, asked, new OldPaper(" ", ""), null),
        "transcribed-from",
        "Copied from is needed.");
    assertRefused(
        () ->
            deferrals.transcribe(
                controller, asked(defect, found, Role.ENGINEER, "", Category.B, NONE), paper, null),
        "licence",
        "an engineer deferred it");
    assertThatThrownBy(() -> deferrals.transcribe(pilot, asked, paper, null))
        .isInstanceOf(Refusal.class);
    UUID copied = deferrals.transcribe(controller, asked, paper, null);
    assertThat(signatures.under(engineer, List.of(copied))).isEmpty();
    assertThat(line(LocalDate.parse("2025-01-27")).stateWords())
        .endsWith("2025. Transcribed from log 3, page 41.");
    assertThat(item(LocalDate.parse("2025-01-27")).sourceReference())
        .contains("transcribed from log 3");
    assertThat(standing(LocalDate.parse("2025-01-29")).isHeld()).isFalse();
    assertThat(standing(LocalDate.parse("2025-01-30")).isHeld()).isTrue();

    assertThatThrownBy(() -> deferrals.correct(engineer, proof(engineer), copied, asked, "R", null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("as a copy");
    NewDeferral c = asked(defect, asked.at(), Role.ENGINEER, "E-OLD", Category.C, NONE);
    UUID corrected = deferrals.correct(controller, copied, c, paper, "Misread", null);
    assertThat(deferrals.entry(engineer, corrected).deferral().lastDay()).isEqualTo("2025-02-05");
    assertThatThrownBy(() -> deferrals.correct(controller, copied, c, paper, "Again", null))
        .isInstanceOf(Stale.class);

    UUID done =
        rectifications.rectify(
            engineer,
            proof(engineer),
            defect,
            new CertifiedWork("Replaced", "Manual 24", LICENCE, found.plusSeconds(86_400)),
            null);
    assertThat(standing(LocalDate.parse("2025-02-10")).isHeld()).isFalse();
    rectifications.takeAway(
        engineer, proof(engineer), done, new TakingAway("Another aircraft", LICENCE), null);
    assertThat(standing(LocalDate.parse("2025-02-05")).isHeld()).as("deferred again").isFalse();
    assertThat(standing(LocalDate.parse("2025-02-06")).isHeld()).as("and run out").isTrue();
  }

  @Test
  void thePlainExampleExtendsNothing() {
    UUID deferral = deferredB();
    assertRefused(
        () -> extend(deferral, "2025-01-30"), "new-last-day", "Category B is not extended");
    assertThat(deferrals.entry(engineer, deferral).deferral().extensions()).isEmpty();
  }

  @Test
  void aLimitationLimitsUntilItIsPutRight() {
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    UUID defect = report(found);
    assertThat(standing(LocalDate.parse("2025-01-26")).isHeld()).isTrue();
    NewDeferral.Conditions notIfr =
        new NewDeferral.Conditions(
            "Day VFR only, one alternator.", "IFR", "Inoperative", "Panel", "M-24-1", "O-24-1");
    deferrals.defer(
        engineer,
        proof(engineer),
        asked(defect, found, Role.ENGINEER, LICENCE, Category.C, notIfr),
        UUID.randomUUID());
    Standing limited = standing(LocalDate.parse("2025-01-27"));
    assertThat(limited.isLimited()).isTrue();
    assertThat(limited.reasons().get(0).sentence())
        .isEqualTo("Defect No. 1 is deferred, not IFR: Day VFR only, one alternator.");
    DefectLine line = line(LocalDate.parse("2025-01-27"));
    assertThat(line.state()).isEqualTo("deferred");
    assertThat(line.placard()).isEqualTo("Inoperative");
    assertThat(line.lastWords()).isEqualTo("23:59 UTC (20:29 local) on 5 February 2025");

    rectifications.rectify(
        engineer,
        proof(engineer),
        defect,
        new CertifiedWork("Replaced", "Manual 24", LICENCE, found.plusSeconds(86_400)),
        UUID.randomUUID());
    assertThat(standing(LocalDate.parse("2025-01-28")).isClear()).isTrue();
  }

  /** 14 CFR 91.213(d) and 91.405(c), as quoted: until the next required inspection. */
  @Test
  void withoutAListItIsDueWithTheNextRequiredInspection() {
    profile("part-91");
    LocalDate begins = LocalDate.parse("2024-06-01");
    UUID annual = annual(begins);
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    UUID defect = report(found);
    deferrals.defer(pilot, proof(pilot), unlisted(defect, found, annual), UUID.randomUUID());
    assertThat(item(LocalDate.parse("2025-02-01")).ruleWords()).contains("with the next Annual");
    assertThat(standing(LocalDate.parse("2025-02-01")).isHeld()).isFalse();
    compliances.file(
        engineer,
        NewCompliance.certified(
            annual, aircraft, null, Instant.parse("2025-03-01T20:00:00Z"), Usage.NONE, LICENCE));
    assertThat(standing(LocalDate.parse("2025-02-28")).isHeld()).isFalse();
    assertThat(standing(LocalDate.parse("2025-03-01")).isHeld()).isTrue();
  }

  /** 14 CFR 135.179, from memory: 91.213(d) is not the route of such an operator. */
  @Test
  void aProfileRefusesTheRouteWithoutAList() {
    profile("part-135");
    UUID annual = annual(LocalDate.parse("2024-06-01"));
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    UUID defect = report(found);
    assertRefused(
        () ->
            deferrals.defer(
                engineer, proof(engineer), unlisted(defect, found, annual), UUID.randomUUID()),
        "route",
        "Nothing is deferred without a list under this rule profile");
    assertThat(items.dueItems(engineer, List.of(aircraft), View.EVERYTHING).get(aircraft))
        .isEmpty();
  }

  @Test
  void onlyWhoIsEntitledDefers() {
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    UUID defect = report(found);
    assertRefused(
        () ->
            deferrals.defer(
                pilot,
                proof(pilot),
                asked(defect, found, Role.PILOT, "", Category.B, NONE),
                UUID.randomUUID()),
        "by",
        "You may not defer this: by this route an engineer defers");
    Viewer controller = company.viewer(Role.CONTROLLER);
    assertRefused(
        () ->
            deferrals.defer(
                controller,
                proof(controller),
                asked(defect, found, Role.ENGINEER, LICENCE, Category.B, NONE),
                UUID.randomUUID()),
        "by",
        "You may not defer this");
    profile("part-m");
    deferrals.defer(
        pilot,
        proof(pilot),
        asked(defect, found, Role.PILOT, "", Category.B, NONE),
        UUID.randomUUID());
    assertRefused(
        () ->
            deferrals.defer(
                pilot,
                proof(pilot),
                asked(
                    report(found, Judgement.MUST_NOT_FLY), found, Role.PILOT, "", Category.B, NONE),
                UUID.randomUUID()),
        "by",
        "an engineer decides");
  }

  @Test
  void aLicenceThatHadExpiredThatDayIsRefused() {
    members.addLicence(
        company.viewer(Role.OWNER),
        engineer.personId(),
        new Members.NewLicence("E-2", "Licensed engineer", "", "", LocalDate.parse("2025-01-25")));
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    UUID defect = report(found);
    assertRefused(
        () ->
            deferrals.defer(
                engineer,
                proof(engineer),
                asked(defect, found, Role.ENGINEER, "E-2", Category.B, NONE),
                UUID.randomUUID()),
        "licence",
        "Licence E-2 expired on 25 January 2025: it was not valid on 26 January 2025.");
    assertThat(line(LocalDate.parse("2025-01-26")).state()).isEqualTo("reported");
  }

  @Test
  void ofTwoWhoDeferOneDefectAtOnceOneSucceeds() throws Exception {
    profile("part-m");
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    for (int round = 0; round < 5; round++) {
      UUID defect = report(found);
      CyclicBarrier together = new CyclicBarrier(2);
      ExecutorService both = Executors.newFixedThreadPool(2);
      try {
        List<Future<String>> ends = new ArrayList<>();
        ends.add(
            both.submit(
                at(together, engineer, asked(defect, found, Role.ENGINEER, LICENCE, Category.B))));
        ends.add(
            both.submit(at(together, pilot, asked(defect, found, Role.PILOT, "", Category.C))));
        List<String> told = List.of(ends.get(0).get(), ends.get(1).get());
        assertThat(told).containsOnlyOnce("filed");
        assertThat(told)
            .anyMatch(word -> word.contains("was deferred already, by") && word.contains("filed."));
        assertThat(deferredRows(defect)).isEqualTo(1);
      } finally {
        both.shutdownNow();
      }
    }
  }

  @Test
  void aDeferralIsSignedWithItsStatement() {
    UUID deferral = deferredB();
    SignatureLine signature = signatures.under(engineer, List.of(deferral)).get(deferral).get(0);
    assertThat(signature.statement()).contains("may be flown with this defect until the limit");
    assertThat(signature.signed()).contains("24-31-01", "QX-SOR", "Alternator 2");
    assertThat(signature.licenceNumber()).isEqualTo(LICENCE);
  }

  @Test
  void aFormSentTwiceDefersOnce() {
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    NewDeferral asked = asked(report(found), found, Role.ENGINEER, LICENCE, Category.B);
    UUID form = UUID.randomUUID();
    assertThat(deferrals.defer(engineer, proof(engineer), asked, form))
        .isEqualTo(deferrals.defer(engineer, proof(engineer), asked, form));
  }

  @Test
  void aCorrectionKeepsTheOriginalAndTheDayOfDiscovery() {
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    UUID defect = report(found);
    UUID first = defer(defect, Category.C, found);
    NewDeferral asB = asked(defect, found, Role.ENGINEER, LICENCE, Category.B);
    UUID second =
        deferrals.correct(engineer, proof(engineer), first, asB, "The list has it as B", null);
    DeferralSheet now = deferrals.entry(engineer, first).deferral();
    assertThat(now.id()).isEqualTo(second);
    assertThat(now.lastDay()).isEqualTo("2025-01-29");
    assertThat(deferredRows(defect)).isEqualTo(2);
    assertThatThrownBy(
            () -> deferrals.correct(engineer, proof(engineer), first, asB, "Again", null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void triageHoldsOrLetsFlyAndEndsADeferral() {
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    UUID defect = report(found);
    triage(defect, Triages.Outcome.FLIES, 0);
    assertThat(standing(today()).isClear()).isTrue();
    triage(defect, Triages.Outcome.HOLDS, 1);
    assertThat(standing(today()).isHeld()).isTrue();
    assertThatThrownBy(() -> triage(defect, Triages.Outcome.FLIES, 1)).isInstanceOf(Stale.class);
  }

  @Test
  void whatAnEngineerHoldsIsDeferredByAnEngineer() {
    profile("part-m");
    Instant found = Instant.now().minusSeconds(7200);
    UUID defect = report(found);
    triage(defect, Triages.Outcome.HOLDS, 0);
    Instant later = Instant.now();
    NewDeferral pilots = asked(defect, later, Role.PILOT, "", Category.C);
    assertRefused(
        () -> deferrals.defer(pilot, proof(pilot), pilots, null), "by", "An engineer holds it");
    assertThat(standing(today()).isHeld()).isTrue();
    UUID deferral = defer(defect, Category.C, later);
    assertThat(standing(today()).isHeld()).isFalse();
    assertRefused(
        () -> deferrals.correct(pilot, proof(pilot), deferral, pilots, "Mine", null),
        "by",
        "An engineer holds it");
  }

  @Test
  void aCopyOfWhatWasDecidedBeforeDoesNotLiftAHold() {
    profile("part-m");
    Viewer controller = company.viewer(Role.CONTROLLER);
    Instant found = Instant.now().minusSeconds(7200);
    OldPaper paper = new OldPaper("log 3, page 41", "S. Brandt");
    UUID defect = report(found);
    triage(defect, Triages.Outcome.HOLDS, 0);
    NewDeferral before = asked(defect, found.plusSeconds(60), Role.ENGINEER, "E-OLD", Category.C);
    assertRefused(
        () -> deferrals.transcribe(controller, before, paper, null), "on", "no longer stands");
    assertThat(standing(today()).isHeld()).isTrue();
    NewDeferral after = asked(defect, Instant.now(), Role.ENGINEER, "E-OLD", Category.C);
    UUID copied = deferrals.transcribe(controller, after, paper, null);
    assertRefused(
        () -> deferrals.correct(controller, copied, before, paper, "Misread", null),
        "on",
        "no longer stands");
  }

  @Test
  void aDeferralThatAHoldHasEndedIsNotCorrected() {
    Instant found = Instant.now().minusSeconds(7200);
    UUID defect = report(found);
    UUID deferral = defer(defect, Category.C, found.plusSeconds(60));
    triage(defect, Triages.Outcome.HOLDS, 1);
    NewDeferral again = asked(defect, found.plusSeconds(60), Role.ENGINEER, LICENCE, Category.C);
    assertThatThrownBy(
            () -> deferrals.correct(engineer, proof(engineer), deferral, again, "Slip", null))
        .isInstanceOf(Stale.class)
        .hasMessageContaining("An engineer has ended this deferral");
    assertThat(standing(today()).isHeld()).isTrue();
  }

  @Test
  void aReportRaisedToMustNotFlyHoldsWhateverWasDecidedBefore() {
    profile("part-m");
    Instant found = Instant.now().minusSeconds(7200);
    UUID triaged = report(found);
    triage(triaged, Triages.Outcome.FLIES, 0);
    UUID deferred = report(found);
    UUID deferral = defer(deferred, Category.C, found.plusSeconds(60));
    assertThat(standing(today()).isHeld()).isFalse();
    long then = raise(triaged);
    assertThat(standing(today()).isHeld()).isTrue();
    View before = new View(today(), then - 1);
    assertThat(
            standings.asAt(engineer, List.of(aircraft), before).get(aircraft).standing().isHeld())
        .as("as known before")
        .isFalse();
    triage(triaged, Triages.Outcome.FLIES, 1);
    assertThat(standing(today()).isHeld()).as("looked at again").isFalse();
    raise(deferred);
    assertThat(standing(today()).isHeld()).isTrue();
    assertThat(deferrals.entry(engineer, deferral).stands()).isFalse();
    assertThat(items.dueItems(engineer, List.of(aircraft), View.asAt(today())).get(aircraft))
        .isEmpty();
    deferrals.correct(
        engineer,
        proof(engineer),
        deferral,
        asked(deferred, found.plusSeconds(60), Role.ENGINEER, LICENCE, Category.C),
        "Decided again, as it is now reported",
        null);
    assertThat(standing(today()).isHeld()).as("an engineer has decided anew").isFalse();
  }

  @Test
  void aCopyIsNotPutRightToLiftAReportRaisedSince() {
    Viewer controller = company.viewer(Role.CONTROLLER);
    Instant found = Instant.now().minusSeconds(7200);
    OldPaper paper = new OldPaper("log 3, page 41", "S. Brandt");
    UUID defect = report(found);
    NewDeferral asked = asked(defect, found.plusSeconds(60), Role.ENGINEER, "E-OLD", Category.C);
    UUID copied = deferrals.transcribe(controller, asked, paper, null);
    raise(defect);
    assertThatThrownBy(() -> deferrals.correct(controller, copied, asked, paper, "Misread", null))
        .isInstanceOf(Stale.class)
        .hasMessageContaining("raised to “must not fly”");
    assertThat(standing(today()).isHeld()).isTrue();
  }

  @Test
  void whatWasPutRightIsNotRaised() {
    Instant found = Instant.now().minusSeconds(7200);
    UUID defect = report(found);
    UUID done =
        rectifications.rectify(
            engineer,
            proof(engineer),
            defect,
            new CertifiedWork("Replaced", "Manual 24", LICENCE, found.plusSeconds(60)),
            null);
    assertRefused(() -> raise(defect), "judgement", "report it anew");
    rectifications.takeAway(
        engineer, proof(engineer), done, new TakingAway("Another aircraft", LICENCE), null);
    raise(defect);
    assertThat(standing(today()).isHeld()).isTrue();
  }

  private long raise(UUID defect) {
    return defects
        .correct(
            pilot,
            defect,
            new DefectDraft(
                "Alternator 2 smokes",
                "24",
                "Left panel",
                null,
                null,
                Judgement.MUST_NOT_FLY,
                null,
                false,
                "",
                Instant.now()),
            List.of(),
            "It was worse",
            null)
        .ledgerSeq();
  }

  @Test
  void whatNobodyHasTriagedLimitsWhereTheProfileSaysSo() {
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    report(found);
    assertThat(standing(today()).isHeld()).as("by the plain example").isTrue();
    profile("plain", limiting(Examples.of("plain").profile()));
    assertThat(standing(today()).isHeld()).isFalse();
    assertThat(standing(today()).reasons())
        .extracting(Reason::sentence)
        .containsExactly("Defect No. 1, not yet triaged: Alternator 2 does not charge.");
    report(found, Judgement.MUST_NOT_FLY);
    assertThat(standing(today()).isHeld()).as("reported as must not fly").isTrue();
  }

  private static RuleProfile limiting(RuleProfile says) {
    return new RuleProfile(
        says.name(),
        says.document(),
        says.monthRule(),
        says.tolerances(),
        RuleProfile.Untriaged.LIMITS,
        says.deferring(),
        says.clockBase(),
        says.deferralExtension(),
        says.extensionNoticeHours(),
        says.repeatWithinDays(),
        says.repeatWithinFlights(),
        says.partsEvidence(),
        says.words(),
        says.statements(),
        says.acceptanceNeedsLicence(),
        says.countsFrom(),
        says.lateEntryDays(),
        says.retentionMonths(),
        says.reportRecipients(),
        says.pilotTasks());
  }

  @Test
  void aDefectThatIsDeferredIsNotWavedThrough() {
    Instant found = Instant.now().minusSeconds(3600);
    UUID defect = report(found);
    defer(defect, Category.C, found.plusSeconds(60));
    assertRefused(
        () -> triage(defect, Triages.Outcome.FLIES, 1), "outcome", "It is deferred, and flies on");
    triage(defect, Triages.Outcome.HOLDS, 1);
    assertThat(standing(today()).isHeld()).isTrue();
    assertThat(items.dueItems(engineer, List.of(aircraft), View.asAt(today())).get(aircraft))
        .isEmpty();
  }

  private Callable<String> at(CyclicBarrier together, Viewer viewer, NewDeferral asked) {
    Proof proof = proof(viewer);
    return () -> {
      together.await();
      try {
        deferrals.defer(viewer, proof, asked, UUID.randomUUID());
        return "filed";
      } catch (Stale stale) {
        return stale.getMessage();
      }
    };
  }

  private long deferredRows(UUID defect) {
    UUID any =
        open.of(engineer, List.of(aircraft), View.EVERYTHING).get(aircraft).stream()
            .filter(line -> line.entryId().equals(defect))
            .map(line -> UUID.fromString(line.decided().replace("/deferrals/", "")))
            .findFirst()
            .orElseThrow();
    return deferrals.entry(engineer, any).filings();
  }

  private void triage(UUID defect, Triages.Outcome outcome, int seen) {
    triages.triage(
        engineer,
        proof(engineer),
        new Triages.NewTriage(defect, outcome, "Looked at it", LICENCE, seen),
        UUID.randomUUID());
  }

  private Proof proof(Viewer viewer) {
    return identity.prove(viewer, Company.PASSWORD);
  }

  private UUID deferredB() {
    Instant found = Instant.parse("2025-01-26T10:00:00Z");
    return defer(report(found), Category.B, found);
  }

  private UUID defer(UUID defect, Category category, Instant at) {
    return deferrals.defer(
        engineer,
        proof(engineer),
        asked(defect, at, Role.ENGINEER, LICENCE, category),
        UUID.randomUUID());
  }

  private UUID deferA(UUID defect, DeferralUnit unit, Long amount, Instant at) {
    NewDeferral.Listed listed =
        new NewDeferral.Listed("List 1", "24-31-01", Category.A, unit, amount);
    return deferrals.defer(
        engineer,
        proof(engineer),
        new NewDeferral(defect, at, Role.ENGINEER, LICENCE, listed, null, NONE),
        UUID.randomUUID());
  }

  private static NewDeferral asked(
      UUID defect, Instant at, Role by, String licence, Category category) {
    return asked(defect, at, by, licence, category, NONE);
  }

  private static NewDeferral asked(
      UUID defect,
      Instant at,
      Role by,
      String licence,
      Category category,
      NewDeferral.Conditions conditions) {
    return new NewDeferral(
        defect, at, by, licence, NewDeferral.Listed.of("24-31-01", category), null, conditions);
  }

  private static NewDeferral unlisted(UUID defect, Instant at, UUID inspection) {
    return new NewDeferral(
        defect,
        at,
        Role.PILOT,
        "",
        null,
        new NewDeferral.Unlisted(
            "deactivated", "Not on the equipment list", "Cosmetic", "A. Pilot", inspection, null),
        new NewDeferral.Conditions("", "", "Inoperative", "At the lamp", "", ""));
  }

  private void extend(UUID deferral, String newLastDay) {
    extensions.extend(
        engineer,
        new NewDeferralExtension(
            deferral,
            Instant.parse("2025-01-28T10:00:00Z"),
            LocalDate.parse(newLastDay),
            "Port Maddern",
            "No part to be had",
            "ALT-1",
            null,
            null,
            "A. Quality",
            "RIE-1",
            null),
        UUID.randomUUID());
  }

  private UUID annual(LocalDate from) {
    return requirements.create(
        company.viewer(Role.OWNER),
        NewRequirement.ofAircraft(
            aircraft,
            Subject.AIRCRAFT,
            Terms.of(
                "Annual inspection",
                RequirementKind.INSPECTION,
                Rule.first(Limit.Every.of(Interval.ofMonths(12)).from("effective")),
                from),
            from,
            "The authority"));
  }

  private UUID report(Instant found) {
    return report(found, Judgement.CAN_FLY);
  }

  private UUID report(Instant found, Judgement judgement) {
    return defects
        .report(
            pilot,
            aircraft,
            new DefectDraft(
                "Alternator 2 does not charge",
                "24",
                "Left panel",
                null,
                null,
                judgement,
                null,
                false,
                "",
                found),
            List.of(),
            null,
            null)
        .entryId();
  }

  private void fly(String takeOff) {
    Instant off = Instant.parse(takeOff);
    log.file(
        pilot,
        aircraft,
        FlightDraft.of("Port Maddern", "Skell", off, off.plusSeconds(3600), 1, "A. Pilot"),
        null);
  }

  private void profile(String key) {
    profile(key, Examples.of(key).profile());
  }

  private void profile(String key, RuleProfile says) {
    var history = profiles.history(engineer, null);
    profiles.revise(
        company.viewer(Role.OWNER),
        new NewProfile(
            null,
            history.isEmpty() ? null : history.get(history.size() - 1).id(),
            key,
            says,
            LocalDate.parse("2000-01-01"),
            "For the test",
            "A. Authority",
            null));
  }

  private DueItem item(LocalDate day) {
    return items.dueItems(engineer, List.of(aircraft), View.asAt(day)).get(aircraft).stream()
        .reduce((one, other) -> other)
        .orElseThrow();
  }

  private DefectLine line(LocalDate day) {
    return open.of(engineer, List.of(aircraft), View.asAt(day)).get(aircraft).get(0);
  }

  private Standing standing(LocalDate day) {
    return standings.asAt(engineer, List.of(aircraft), View.asAt(day)).get(aircraft).standing();
  }

  private LocalDate today() {
    return engineer.dateOf(Instant.now());
  }

  private static void assertRefused(ThrowingCallable filing, String field, String sentence) {
    assertThatThrownBy(filing)
        .isInstanceOfSatisfying(
            Refusal.class,
            refusal -> {
              assertThat(refusal.reasons()).extracting(Refusal.Reason::field).contains(field);
              assertThat(refusal.reasons().toString()).contains(sentence);
            });
  }
}
