package trestle.overview;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.Particulars;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.reckoning.Counter;
import trestle.server.StatementCount;
import trestle.web.AsAt;
import trestle.web.Role;
import trestle.web.Viewer;

/** The fleet's page, an aircraft's page and the due list, as a member's browser gets them. */
@QuarkusTest
class OverviewPagesTest {
  @Inject Operators operators;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject Hangar hangar;
  @Inject Overviews overviews;
  @Inject InstantSource clock;

  private Company company;
  private Viewer owner;
  private Instant began;

  @BeforeEach
  void anOperator() {
    company = Company.founded("overview-" + UUID.randomUUID(), operators, members);
    owner = company.viewer(Role.OWNER);
    began = clock.instant().minus(Duration.ofDays(100));
  }

  @Test
  void heldAircraftStandFirstWithTheirReasons() {
    UUID complete = bare("QX-ABC");
    UUID incomplete = hangar.single(owner, "QX-TBC", began);

    String page = company.visitor(Role.PILOT).get("/fleet").asString();

    assertThat(page.indexOf("QX-TBC")).isPositive().isLessThan(page.indexOf("QX-ABC"));
    assertThat(page)
        .contains("1 held, 0 limited; nothing recorded prevents flight of 1.")
        .contains("Nothing is fitted as Engine.")
        .contains("/aircraft/" + incomplete + "/positions")
        .contains("/aircraft/" + complete)
        .contains("Nothing recorded prevents flight.")
        .contains("No flight is recorded yet");
  }

  @Test
  void anAircraftShowsWhatItHasRun() {
    UUID id = bare("QX-ABC");
    Response answer = company.visitor(Role.AUDITOR).get("/aircraft/" + id);
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.asString())
        .contains("6,000.0 h")
        .contains("2,000")
        .contains("it does not declare an aircraft airworthy")
        .doesNotContain("Log a flight");
    assertThat(company.visitor(Role.PILOT).get("/aircraft/" + id).asString())
        .contains("Log a flight");
  }

  @Test
  void anAircraftsPageIsTheSamePackedOrNot() {
    String path = "/aircraft/" + bare("QX-ABC");
    Visitor visitor = company.visitor(Role.OWNER);
    Response packed = visitor.get(path);
    Response plain = visitor.getUnpacked(path);
    assertThat(packed.header("Content-Encoding")).isEqualTo("gzip");
    assertThat(plain.header("Content-Encoding")).isNull();
    assertThat(packed.header("Cache-Control")).isEqualTo("no-store");
    assertThat(plain.header("Cache-Control")).isEqualTo("no-store");
    assertThat(textOf(packed)).isEqualTo(textOf(plain)).contains("</html>");
  }

  /** Without what differs from one minute, and from one form's token, to the next. */
  private static String textOf(Response answer) {
    return answer
        .asString()
        .replaceAll("name=\"csrf-token\" value=\"[^\"]*\"", "token")
        .replaceAll("\\d\\d:\\d\\d(:\\d\\d)?", "time");
  }

  @Test
  void anotherOperatorsAircraftIsNotHere() {
    UUID id = bare("QX-ABC");
    Company other = Company.founded("overview-" + UUID.randomUUID(), operators, members);
    Visitor stranger = other.visitor(Role.OWNER);
    assertThat(stranger.get("/aircraft/" + id).statusCode()).isEqualTo(404);
    assertThat(stranger.get("/fleet").asString()).doesNotContain("QX-ABC");
  }

  @Test
  void anEarlierDayShowsWhatThereWasThen() {
    bare("QX-ABC");
    Visitor visitor = company.visitor(Role.OWNER);
    LocalDate began = owner.dateOf(this.began);

    assertThat(visitor.get("/fleet?as-at=" + began).asString())
        .contains("QX-ABC")
        .contains("as it truly was");
    assertThat(visitor.get("/fleet?as-at=" + began.minusDays(1)).asString())
        .doesNotContain("QX-ABC")
        .contains("No aircraft is registered as at that day");
    assertThat(visitor.get("/fleet?known=then&as-at=" + began).asString())
        .contains("as it was known then")
        .doesNotContain("QX-ABC");
  }

  @Test
  void aDayThatIsNoneOrToComeIsAnsweredWithASentence() {
    Visitor visitor = company.visitor(Role.OWNER);
    for (String typed : List.of("2026-02-30", "soon", "2199-01-01")) {
      Response answer = visitor.get("/fleet?as-at=" + typed);
      assertThat(answer.statusCode()).isEqualTo(400);
      assertThat(answer.asString()).contains("As at must").contains("value=\"" + typed + "\"");
    }
  }

  @Test
  void aFilterThatCannotBeReadIsKeptAndExplained() {
    bare("QX-ABC");
    Visitor visitor = company.visitor(Role.CONTROLLER);
    Map<String, String> typed =
        Map.of("hours", "12:75", "days", "-3", "force", "strong", "aircraft", "QX-ABC");
    typed.forEach(
        (field, value) -> {
          Response answer = visitor.get("/due-list?" + field + "=" + value);
          assertThat(answer.statusCode()).as(field).isEqualTo(400);
          assertThat(answer.asString()).as(field).contains("id=\"" + field + "-error\"");
        });
    assertThat(visitor.get("/due-list?hours=12:75").asString()).contains("value=\"12:75\"");
    assertThat(visitor.get("/due-list?hours=10&days=30").statusCode()).isEqualTo(200);
  }

  @Test
  void whatIsFiledShowsOnTheNextPage() {
    UUID id = bare("QX-ABC");
    Visitor visitor = company.visitor(Role.OWNER);
    assertThat(visitor.get("/fleet").asString()).contains("0 held");
    var sheet = overviews.aircraft(owner, id, AsAt.now(owner.dateOf(clock.instant()))).sheet();
    fleet.revise(
        owner,
        id,
        new Fleet.Revising(
            sheet.revisionId(),
            Particulars.of("QX-NEW", "Skerry 200", "S-1"),
            owner.dateOf(clock.instant()),
            "New mark",
            null));
    assertThat(visitor.get("/fleet").asString()).contains("QX-NEW").doesNotContain("QX-ABC");
  }

  @Test
  void fiftyAircraftTakeNoMoreStatementsThanOne() throws Exception {
    AsAt now = AsAt.now(owner.dateOf(clock.instant()));
    AsAt past = AsAt.on(owner.dateOf(began), now.today());
    hangar.single(owner, "QX-AAA", began);
    List<String> coldOfOne = StatementCount.of(() -> overviews.fleet(owner, now));
    List<String> pastOfOne = StatementCount.of(() -> overviews.fleet(owner, past));

    Company large = Company.founded("overview-" + UUID.randomUUID(), operators, members);
    Viewer viewer = large.viewer(Role.OWNER);
    for (int i = 0; i < 50; i++) {
      hangar.single(viewer, "QX-B" + (10 + i), began);
    }
    assertThat(StatementCount.of(() -> overviews.fleet(viewer, now))).hasSameSizeAs(coldOfOne);
    assertThat(StatementCount.of(() -> overviews.fleet(viewer, past))).hasSameSizeAs(pastOfOne);
    assertThat(StatementCount.of(() -> overviews.fleet(viewer, now))).hasSize(1);
    assertThat(overviews.fleet(viewer, now).aircraft()).hasSize(50);
  }

  /** An aircraft with no position to be filled, so that nothing holds it. */
  private UUID bare(String registration) {
    return fleet.register(
        owner,
        new Fleet.Registering(
            Particulars.of(registration, "Skerry 200", "S-1"),
            List.of(),
            began,
            Map.of(Counter.HOURS, Hangar.hours(6_000), Counter.LANDINGS, 2_000L),
            null));
  }
}
