package trestle.faults;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.arc.ClientProxy;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import trestle.fleet.Hangar;
import trestle.flights.FlightDraft;
import trestle.flights.Flights;
import trestle.flights.JourneyLog;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.people.Visitor.Filled;
import trestle.server.TestDatabase;
import trestle.server.TheClock;
import trestle.server.backup.BackupWriter;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * What people see while the database is gone, its disk full, or the clock wrong; and afterwards.
 */
@QuarkusTest
class DatabaseTroubleTest {
  private static final Instant BEGAN = Instant.parse("2025-01-01T00:00:00Z");

  private static Company company;
  private static UUID aircraft;
  private static Visitor owner;

  @TempDir Path directory;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject JourneyLog journeyLog;
  @Inject Flights flights;
  @Inject InstantSource clock;

  @BeforeEach
  void found() {
    if (company == null) {
      company = Company.founded("trouble-" + UUID.randomUUID(), operators, members);
      aircraft = hangar.single(company.viewer(Role.OWNER), "QX-TRB", BEGAN);
      owner = company.visitor(Role.OWNER);
    }
  }

  @AfterEach
  void mend() throws SQLException {
    asSuperuser("alter role trestle_app connection limit -1");
    asSuperuser("drop trigger if exists full_disk on grounding");
  }

  @Test
  void whileTheDatabaseIsGoneEachAnswerSaysSoAndTheFirstAfterwardsIsRight() throws Exception {
    Filled grounding = grounding("Hail on the wing");
    asSuperuser("alter role trestle_app connection limit 0");
    asSuperuser(
        "select pg_terminate_backend(pid, 5000) from pg_stat_activity where usename = 'trestle_app'");

    Response page = owner.get("/fleet");
    assertThat(page.statusCode()).as(page.asString()).isEqualTo(503);
    assertThat(page.header("Retry-After")).isEqualTo("10");
    assertThat(page.header("Cache-Control")).isEqualTo("no-store");
    assertThat(page.asString())
        .contains("<main id=\"main\"", "be reached just now", "Nothing that was filed is lost.")
        .doesNotContain("xception");
    assertThat(given().get("/sign-in").statusCode()).isIn(200, 503);

    Response sent = owner.send(grounding);
    assertThat(sent.statusCode()).as(sent.asString()).isEqualTo(503);
    assertThat(sent.asString()).contains("it is filed once, however often it is sent");
    Filled kept = Visitor.filledIn(sent.asString(), grounding.action(), "/groundings", Map.of());
    assertThat(kept.fields()).containsEntry("why", "Hail on the wing");
    assertThat(given().get("/q/health/ready").statusCode()).isEqualTo(503);

    asSuperuser("alter role trestle_app connection limit -1");
    assertThat(owner.get("/fleet").statusCode()).isEqualTo(200);
    assertThat(owner.send(grounding).statusCode()).isEqualTo(303);
    assertThat(owner.send(grounding).statusCode()).isEqualTo(303);
    assertThat(count("Hail on the wing")).isEqualTo("1");
  }

  /** PostgreSQL's own error for a full disk, raised where a row would be written. */
  @Test
  void onAFullDiskPagesAreReadAndWhatIsSentIsRefusedUntilThereIsRoom() throws Exception {
    asSuperuser(
        "create or replace function full_disk() returns trigger language plpgsql as"
            + " $$ begin raise 'could not extend file: No space left on device'"
            + " using errcode = 'disk_full'; end $$;"
            + " create trigger full_disk before insert on grounding"
            + " for each row execute function full_disk()");
    Filled grounding = grounding("Tyre flat");
    Response sent = owner.send(grounding);
    assertThat(sent.statusCode()).as(sent.asString()).isEqualTo(503);
    assertThat(sent.asString()).contains("<h1>The disk is full</h1>", "Nothing was filed");
    assertThat(owner.get("/aircraft/" + aircraft).statusCode()).isEqualTo(200);
    asSuperuser("drop trigger full_disk on grounding");
    asSuperuser("drop function full_disk()");
    assertThat(owner.send(grounding).statusCode()).isEqualTo(303);
    assertThat(count("Tyre flat")).isEqualTo("1");
  }

  @Test
  void aClockSetBackAnHourStopsNobodyAndLeavesTheLedgerWhole() throws Exception {
    Viewer pilot = company.viewer(Role.PILOT);
    Instant now = clock.instant();
    fly(pilot, now.minus(Duration.ofHours(5)));
    TheClock told = (TheClock) ClientProxy.unwrap(clock);
    told.telling(
        now.minus(Duration.ofHours(1)),
        () -> {
          fly(pilot, now.minus(Duration.ofHours(3)));
          return null;
        });
    fly(pilot, now.minus(Duration.ofMinutes(90)));
    try (Connection connection = TestDatabase.asOwner()) {
      assertThat(
              new BackupWriter(connection, "of the tests", now)
                  .write(directory.resolve("kept.zip"), Optional.of(company.name()))
                  .faults())
          .isEmpty();
    }
    assertThat(flights.page(pilot, aircraft, View.EVERYTHING, 1).flights()).isEqualTo(3);
  }

  private void fly(Viewer pilot, Instant takeOff) {
    journeyLog.file(
        pilot,
        aircraft,
        FlightDraft.of("Sound", "Sound", takeOff, takeOff.plusSeconds(1800), 1, "A. Pilot"),
        UUID.randomUUID());
  }

  private static Filled grounding(String why) {
    return owner.filled("/aircraft/" + aircraft + "/groundings", "/groundings", Map.of("why", why));
  }

  private static String count(String why) throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser();
        var statement =
            connection.prepareStatement("select count(*) from grounding where why = ?")) {
      statement.setString(1, why);
      var row = statement.executeQuery();
      row.next();
      return row.getString(1);
    }
  }

  private static void asSuperuser(String sql) throws SQLException {
    try (Connection connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
