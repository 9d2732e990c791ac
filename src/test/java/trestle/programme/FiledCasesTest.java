package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Rule;
import trestle.reckoning.State;
import trestle.server.TheClock;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * Regulations and circulars, case by case, as compliances filed on a database. The number and the
 * source stand at each: V read in the document, Q read as a quotation, D the rule published and the
 * arithmetic ours.
 */
@QuarkusTest
class FiledCasesTest {
  private static final Instant TOLD = Instant.parse("2026-11-01T12:00:00Z");
  private static final LocalDate LONG_AGO = LocalDate.of(1998, 1, 1);
  private static final Limit.Every ANNUAL = Limit.Every.of(Interval.ofMonths(12)).toMonthEnd();
  private static final Limit.Every EN_ROUTE =
      Limit.Every.of(Counter.HOURS, "100").tolerance("10").keepSchedule();
  private static final Limit.Every PART_ML = Limit.Every.of(Counter.HOURS, "100").tolerance("10");

  /** One limit by the calendar, done once, and the last day it is good. */
  private record Dated(String source, Limit.Every limit, String done, String goodThrough) {}

  private static final List<Dated> DATED =
      List.of(
          new Dated("1: 14 CFR 91.409(a) [D]", ANNUAL, "2025-03-11", "2026-03-31"),
          new Dated("2: 14 CFR 91.409(a) [D]", ANNUAL, "2025-03-01", "2026-03-31"),
          new Dated("2: 14 CFR 91.409(a) [D]", ANNUAL, "2025-03-31", "2026-03-31"),
          new Dated("4: 14 CFR 91.409(a) [D]", ANNUAL, "2024-02-29", "2025-02-28"),
          new Dated("5: 14 CFR 91.409(a) [D]", ANNUAL, "2023-02-15", "2024-02-29"),
          new Dated(
              "6: 14 CFR 91.411, a question on a forum [Q/D]",
              Limit.Every.of(Interval.ofMonths(24)).toMonthEnd(),
              "2020-07-22",
              "2022-07-31"),
          new Dated(
              "17: 14 CFR 91.171(a)(2) [D]",
              Limit.Every.of(Interval.ofDays(30)),
              "2026-03-01",
              "2026-03-31"),
          new Dated("21: 14 CFR 91.207(d) [D]", ANNUAL, "2025-08-14", "2026-08-31"));

  /** One limit in hours: last done, done again, due next, whether that doing overran. */
  private record Used(
      String source, Limit.Every limit, String last, String done, String next, boolean overrun) {}

  private static final List<Used> USED =
      List.of(
          new Used("9: 14 CFR 91.409(b) [D]", EN_ROUTE, "900", "1006", "1100", false),
          new Used("10: 14 CFR 91.409(b) [D]", EN_ROUTE, "900", "1010", "1100", false),
          new Used(
              "11: 14 CFR 91.409(b), a violation [D]", EN_ROUTE, "900", "1010.1", "1100", true),
          new Used("13: 14 CFR 91.409(b) [D]", EN_ROUTE, "900", "992", "1092", false),
          new Used("32: ML.A.302(d)(1) [Q/D]", PART_ML, "1900", "2008", "2108", false),
          new Used(
              "39: TM 1-1500-328-23, within the window [V]",
              Limit.Every.of(Counter.HOURS, "75").window("5").tolerance("5"),
              "1534.4",
              "1614.4",
              "1684.4",
              false));

  @Inject Upkeep upkeep;
  @Inject Programmes programmes;
  @Inject CarryOvers carryOvers;
  @Inject Requirements requirements;
  @Inject Extensions extensions;
  @Inject DueItems dueItems;
  @Inject TheClock clock;

  private Viewer owner;
  private Viewer engineer;
  private Viewer controller;
  private Viewer pilot;

  @BeforeEach
  void found() {
    Company company = upkeep.company();
    owner = company.viewer(Role.OWNER);
    engineer = company.viewer(Role.ENGINEER);
    controller = company.viewer(Role.CONTROLLER);
    pilot = company.viewer(Role.PILOT);
  }

  @Test
  void datesAreGoodThroughTheDayThatIsPublished() throws Exception {
    told(
        () -> {
          UUID aircraft = upkeep.aircraft(owner, "QX-DAT", LONG_AGO, "hours=900");
          for (Dated row : DATED) {
            UUID requirement = requirement(aircraft, row.source(), row.limit());
            upkeep.done(engineer, requirement, aircraft, LocalDate.parse(row.done()));
            LocalDate last = LocalDate.parse(row.goodThrough());
            LimitReckoning then = upkeep.limit(owner, requirement, aircraft, last);
            assertThat(then.dueOn()).as(row.source()).isEqualTo(last);
            assertThat(then.spent()).as(row.source()).isFalse();
            assertThat(upkeep.limit(owner, requirement, aircraft, last.plusDays(1)).spent())
                .as(row.source())
                .isTrue();
          }
        });
  }

  @Test
  void hoursFallDueNextWhereItIsPublished() throws Exception {
    told(
        () -> {
          int number = 0;
          for (Used row : USED) {
            UUID aircraft =
                upkeep.aircraft(owner, "QX-U" + number++, LONG_AGO, "hours=" + row.last());
            UUID requirement = requirement(aircraft, row.source(), row.limit());
            upkeep.baseline(controller, requirement, aircraft, LONG_AGO, "hours=" + row.last());
            LocalDate day = LocalDate.of(2025, 3, 1);
            upkeep.flyTo(pilot, aircraft, row.done(), day);
            upkeep.done(engineer, requirement, aircraft, day);
            LimitReckoning next = upkeep.limit(owner, requirement, aircraft, day.plusDays(1));
            assertThat(next.dueAt()).as(row.source()).hasToString(row.next());
            assertThat(next.overrun()).as(row.source()).isEqualTo(row.overrun());
          }
        });
  }

  /** Cases 14 and 15, 14 CFR 91.409(a) and (b) [D]. */
  @Test
  void anAnnualCountsForTheHundredHoursAndNotTheOtherWay() throws Exception {
    told(
        () -> {
          UUID aircraft = upkeep.aircraft(owner, "QX-ANN", LONG_AGO, "hours=1000");
          UUID hundred = requirement(aircraft, "100-hour", EN_ROUTE);
          UUID annual =
              upkeep.requirement(
                  owner,
                  aircraft,
                  Terms.of("Annual", RequirementKind.INSPECTION, Rule.first(ANNUAL), LONG_AGO)
                      .covering(hundred));
          upkeep.done(engineer, annual, aircraft, LocalDate.of(2025, 3, 3));
          upkeep.flyTo(pilot, aircraft, "1040", LocalDate.of(2025, 9, 3));
          upkeep.done(engineer, hundred, aircraft, LocalDate.of(2025, 9, 3));
          LocalDate soon = LocalDate.of(2025, 9, 4);
          assertThat(upkeep.limit(owner, hundred, aircraft, soon).dueAt()).hasToString("1140");
          assertThat(upkeep.limit(owner, annual, aircraft, soon).dueOn()).isEqualTo("2026-03-31");

          upkeep.flyTo(pilot, aircraft, "1075", LocalDate.of(2025, 11, 20));
          upkeep.done(engineer, annual, aircraft, LocalDate.of(2025, 11, 20));
          LocalDate later = LocalDate.of(2025, 11, 21);
          assertThat(upkeep.limit(owner, hundred, aircraft, later).dueAt()).hasToString("1175");
          assertThat(upkeep.item(owner, hundred, aircraft, later).lastDone().coveredBy())
              .isEqualTo("Annual");
          assertThat(upkeep.limit(owner, annual, aircraft, later).dueOn()).isEqualTo("2026-11-30");
        });
  }

  /** Case 34, ML.A.302(d)(1) [Q/D]; case 35, "whichever comes first" [V/D]. */
  @Test
  void anAnnualUnderPartMlMayBeAMonthLateAndThenCountsFromWhenItWasDone() throws Exception {
    told(
        () -> {
          UUID aircraft = upkeep.aircraft(owner, "QX-PML", LONG_AGO, "hours=500");
          UUID annual =
              requirement(
                  aircraft, "Annual", Limit.Every.of(Interval.ofMonths(12)).tolerance("P1M"));
          upkeep.done(engineer, annual, aircraft, LocalDate.of(2025, 4, 15));
          LocalDate lastDay = LocalDate.of(2026, 5, 15);
          assertThat(upkeep.limit(owner, annual, aircraft, lastDay).state())
              .isEqualTo(State.IN_TOLERANCE);
          assertThat(upkeep.limit(owner, annual, aircraft, lastDay.plusDays(1)).spent()).isTrue();
          upkeep.done(engineer, annual, aircraft, LocalDate.of(2026, 5, 10));
          LimitReckoning next = upkeep.limit(owner, annual, aircraft, lastDay);
          assertThat(next.dueOn()).isEqualTo("2027-05-10");
          assertThat(next.overrun()).isFalse();

          UUID both =
              upkeep.requirement(
                  owner,
                  aircraft,
                  "Annual or 100 h",
                  Rule.first(PART_ML, Limit.Every.of(Interval.ofMonths(12)).tolerance("P1M")),
                  LONG_AGO);
          upkeep.done(engineer, both, aircraft, LocalDate.of(2025, 6, 1));
          upkeep.flyTo(pilot, aircraft, "600", LocalDate.of(2026, 1, 31));
          LocalDate today = LocalDate.of(2026, 2, 1);
          var item = upkeep.item(owner, both, aircraft, today);
          assertThat(item.state()).isEqualTo(State.DUE);
          assertThat(item.reckoning().controlling()).containsExactly(0);
          assertThat(((LimitReckoning) item.reckoning().entries().get(1)).dueOn())
              .isEqualTo("2026-06-01");
        });
  }

  /** Case 42, TM 1-1500-328-23: due 6 Feb 1999, window 7 Jan to 8 Mar 1999 [V]. */
  @Test
  void aWindowByTheCalendarKeepsTheScheduledDay() throws Exception {
    told(
        () -> {
          UUID aircraft = upkeep.aircraft(owner, "QX-WIN", LONG_AGO, "hours=500");
          Limit.Every yearly =
              Limit.Every.of(Interval.ofMonths(12)).window("P30D").tolerance("P30D");
          record Row(String done, String next) {}
          for (Row row :
              List.of(
                  new Row("1999-01-06", "2000-01-06"),
                  new Row("1999-01-07", "2000-02-06"),
                  new Row("1999-03-08", "2000-02-06"),
                  new Row("1999-03-09", "2000-03-09"))) {
            UUID requirement = requirement(aircraft, "Yearly, done " + row.done(), yearly);
            upkeep.done(engineer, requirement, aircraft, LocalDate.of(1998, 2, 6));
            upkeep.done(engineer, requirement, aircraft, LocalDate.parse(row.done()));
            assertThat(upkeep.limit(owner, requirement, aircraft, LocalDate.of(1999, 4, 1)).dueOn())
                .as(row.done())
                .isEqualTo(row.next());
          }
        });
  }

  /** Case 36, leaflet on permitted variations, paragraph 4 [V]; case 66, 14 CFR 39.9 [V/D]. */
  @Test
  void aDirectiveIsNeitherExtendedNorGivenATolerance() throws Exception {
    told(
        () -> {
          UUID aircraft = upkeep.aircraft(owner, "QX-DIR", LONG_AGO, "hours=1000");
          Terms recurring =
              Terms.of(
                  "Directive 2025-01",
                  RequirementKind.DIRECTIVE,
                  Rule.first(Limit.Every.of(Counter.HOURS, "100")),
                  LONG_AGO);
          UUID directive = upkeep.requirement(owner, aircraft, recurring);
          upkeep.flyTo(pilot, aircraft, "1050", LocalDate.of(2025, 3, 1));
          upkeep.done(engineer, directive, aircraft, LocalDate.of(2025, 3, 1));
          assertThat(upkeep.limit(owner, directive, aircraft, LocalDate.of(2025, 3, 2)).dueAt())
              .hasToString("1150");
          assertThatThrownBy(() -> extensions.grant(engineer, tenHours(directive, aircraft, "")))
              .isInstanceOfSatisfying(Refusal.class, refusal -> isAt(refusal, "allowed-by"));
          assertThatThrownBy(
                  () ->
                      upkeep.requirement(owner, aircraft, recurring.withRule(Rule.first(PART_ML))))
              .isInstanceOfSatisfying(Refusal.class, refusal -> isAt(refusal, "tolerance-source"));
          assertThatThrownBy(
                  () ->
                      upkeep.requirement(
                          owner,
                          aircraft,
                          Terms.of(
                              "Life limit",
                              RequirementKind.LIFE_LIMIT,
                              Rule.first(Limit.Every.of(Counter.HOURS, "100").window("5")),
                              LONG_AGO)))
              .isInstanceOfSatisfying(Refusal.class, refusal -> isAt(refusal, "kind"));

          extensions.grant(engineer, tenHours(directive, aircraft, "Its paragraph (h)"));
          assertThat(upkeep.limit(owner, directive, aircraft, LocalDate.of(2025, 3, 2)).dueAt())
              .hasToString("1160");
          upkeep.requirement(
              owner,
              aircraft,
              recurring.withRule(Rule.first(PART_ML)).withTolerance("", "Its paragraph (g)(2)"));
        });
  }

  /** Case 69, GM M.A.305(d): 5,000 cycles allowed, 4,870 accumulated [D]. */
  @Test
  void aLifeLimitIsSpentWhenItIsReached() throws Exception {
    told(
        () -> {
          UUID aircraft = upkeep.aircraft(owner, "QX-LIF", LONG_AGO, "hours=10 landings=4870");
          UUID life =
              upkeep.requirement(
                  owner,
                  aircraft,
                  Terms.of(
                      "Undercarriage leg, life",
                      RequirementKind.LIFE_LIMIT,
                      Rule.first(Limit.Fixed.at(Counter.LANDINGS, "5000")).onlyOnce(),
                      LONG_AGO));
          LocalDate today = LocalDate.of(2025, 3, 1);
          assertThat(upkeep.limit(owner, life, aircraft, today).left()).hasToString("130");
          Instant off = Instant.parse("2025-02-01T12:00:00Z");
          for (int i = 0; i < 130; i++) {
            upkeep.fly(pilot, aircraft, off.plusSeconds(i * 3_600), "0.5");
          }
          LimitReckoning reached = upkeep.limit(owner, life, aircraft, today);
          assertThat(reached.left()).hasToString("0");
          assertThat(reached.spent()).isTrue();
        });
  }

  /** Case 70, 14 CFR 91.409(h): time under the previous programme must be applied [V/D]. */
  @Test
  void aChangeOfProgrammeCarriesTheTimeOver() throws Exception {
    told(
        () -> {
          UUID aircraft = upkeep.aircraft(owner, "QX-CHG", LONG_AGO, "hours=1000");
          UUID old = programme("Old");
          UUID inspection = ofProgramme(old, "100-hour");
          programmes.adopt(owner, aircraft, old, LONG_AGO, null, null);
          upkeep.flyTo(pilot, aircraft, "1100", LocalDate.of(2025, 2, 1));
          UUID last = upkeep.done(engineer, inspection, aircraft, LocalDate.of(2025, 2, 1));
          assertThat(last).isNotNull();
          upkeep.flyTo(pilot, aircraft, "1160", LocalDate.of(2025, 4, 1));

          UUID renewed = programme("New");
          UUID equivalent = ofProgramme(renewed, "Hundred hours, as the new one calls it");
          programmes.adopt(owner, aircraft, renewed, LocalDate.of(2025, 4, 2), "Changed", null);
          LocalDate today = LocalDate.of(2025, 4, 3);
          assertThat(upkeep.item(owner, equivalent, aircraft, today).state())
              .isEqualTo(State.UNKNOWN);
          List<CarryOvers.Open> open = carryOvers.open(controller, aircraft, today);
          assertThat(open)
              .extracting(each -> each.item().requirementId())
              .containsExactly(equivalent);
          assertThat(open.get(0).likely()).isNull();
          Map<String, UUID> chosen = Map.of(open.get(0).key(), inspection);
          assertThat(carryOvers.carry(controller, aircraft, chosen, "", today)).isEqualTo(1);
          assertThat(carryOvers.carry(controller, aircraft, chosen, "", today)).isZero();
          assertThat(upkeep.limit(owner, equivalent, aircraft, today).left()).hasToString("40");
          assertThat(dueItems.dueItems(owner, List.of(aircraft), View.asAt(today)).get(aircraft))
              .extracting(item -> item.requirementId())
              .containsExactly(equivalent);
        });
  }

  private UUID programme(String name) {
    return programmes.create(
        owner, new Programmes.NewProgramme(name, "Skerry 200", "", LONG_AGO, null));
  }

  private UUID ofProgramme(UUID programme, String title) {
    return requirements.create(
        owner,
        NewRequirement.ofProgramme(
            programme,
            "aircraft",
            Terms.of(
                title,
                RequirementKind.INSPECTION,
                Rule.first(Limit.Every.of(Counter.HOURS, "100")),
                LONG_AGO),
            LONG_AGO,
            "The authority"));
  }

  private UUID requirement(UUID aircraft, String title, Limit limit) {
    return upkeep.requirement(owner, aircraft, title, Rule.first(limit), LONG_AGO);
  }

  private static NewExtension tenHours(UUID requirement, UUID aircraft, String allowedBy) {
    return new NewExtension(
        requirement,
        aircraft,
        null,
        LocalDate.of(2025, 3, 2),
        List.of(0),
        1_160 * 3_600,
        "The authority",
        "EXT-1",
        allowedBy,
        null);
  }

  private static void isAt(Refusal refusal, String field) {
    assertThat(refusal.reasons()).extracting(Refusal.Reason::field).containsExactly(field);
  }

  private interface Told {
    void run() throws Exception;
  }

  private void told(Told story) throws Exception {
    clock.telling(
        TOLD,
        () -> {
          story.run();
          return null;
        });
  }
}
