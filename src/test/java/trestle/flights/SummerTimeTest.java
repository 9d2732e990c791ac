package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.sql.SQLException;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.reckoning.Counter;
import trestle.server.TestDatabase;
import trestle.web.Role;

/**
 * An operator that writes local time, over the changes of summer time both ways. As the time-zone
 * database has them for Europe/London (checked with zdump): clocks go from 01:00 to 02:00 on 30
 * March 2025, and from 02:00 back to 01:00 on 26 October 2025.
 */
@QuarkusTest
class SummerTimeTest {
  @Inject Hangar hangar;
  @Inject UsageLines lines;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private Visitor pilot;
  private UUID aircraft;

  @Test
  void anHourThatCameTwiceIsAskedAboutAndOneThatNeverWasIsRefused() throws SQLException {
    found();
    Response noTime = file("30 Mar 2025", "01:30", "02:30", Map.of());
    assertThat(noTime.statusCode()).isEqualTo(422);
    assertThat(noTime.asString())
        .contains("was no time on 30 March 2025: clocks went from 01:00 to 02:00");
    // A quarter to one to a quarter past two: half an hour.
    assertThat(file("30 Mar 2025", "00:45", "02:15", Map.of()).statusCode()).isEqualTo(303);
    assertThat(minutes()).isEqualTo(30);

    Response twice = file("26 Oct 2025", "01:30", "01:10", Map.of());
    assertThat(twice.statusCode()).isEqualTo(422);
    assertThat(twice.asString())
        .contains("Take-off 01:30 came twice on 26 October 2025: say which.")
        .contains("name=\"take-off-which\"", "name=\"landing-which\"");
    // Half past one before they went back, to ten past one after: forty minutes.
    Map<String, String> which = Map.of("take-off-which", "+01:00", "landing-which", "Z");
    assertThat(file("26 Oct 2025", "01:30", "01:10", which).statusCode()).isEqualTo(303);
    assertThat(minutes()).isEqualTo(70);

    Map<String, String> defect =
        new HashMap<>(
            Map.of(
                "words",
                "Alternator does not charge",
                "judgement",
                "can-fly",
                "found-on",
                "26 Oct 2025",
                "found-time",
                "01:40"));
    String form = "/defects/new?aircraft=" + aircraft;
    Response asked = pilot.fillIn(form, "/defects", defect);
    assertThat(asked.statusCode()).isEqualTo(422);
    assertThat(asked.asString())
        .contains("Time 01:40 came twice on 26 October 2025: say which.")
        .contains("name=\"found-time-which\"", "the second, after clocks went back");
    String address = "/aircraft/" + aircraft + "/defects";
    Visitor.Filled again =
        Visitor.filledIn(asked.asString(), form, "/defects", Map.of("found-time-which", "Z"));
    assertThat(pilot.send(again).statusCode()).isEqualTo(303);
    assertThat(pilot.get(address).asString()).contains("Alternator does not charge");
  }

  private void found() throws SQLException {
    String name = "summer-" + UUID.randomUUID().toString().substring(0, 8);
    company = Company.founded(name, operators, members);
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      statement.execute(
          "update operator set time_zone = 'Europe/London', flight_times_in = 'local' where id = '%s'"
              .formatted(company.operatorId()));
    }
    pilot = company.visitor(Role.PILOT);
    aircraft =
        hangar.single(company.viewer(Role.OWNER), "QX-SUM", Instant.parse("2025-01-01T00:00:00Z"));
  }

  private Response file(String date, String off, String on, Map<String, String> which) {
    Map<String, String> fields = new HashMap<>(which);
    fields.put("date", date);
    fields.put("from", "Port Maddern");
    fields.put("to", "Skell Island");
    fields.put("take-off", off);
    fields.put("landing", on);
    fields.put("landings", "1");
    fields.put("commander", "I. Tarn");
    return pilot.post("/aircraft/" + aircraft + "/flights", fields);
  }

  /** Flown since it was registered. */
  private long minutes() {
    long now =
        lines
            .of(company.viewer(Role.OWNER), aircraft, View.EVERYTHING)
            .unitsAt(Instant.MAX, Counter.HOURS);
    return (now - Hangar.hours(6_000)) / 60;
  }
}
