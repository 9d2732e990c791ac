package trestle.apron;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Groundings;
import trestle.people.Visitor;
import trestle.web.Role;
import trestle.web.Viewer;

/** The trip check as a pilot's browser gets it: a question by GET, nothing filed. */
@QuarkusTest
class TripPagesTest {
  @Inject Ramp ramp;
  @Inject Groundings groundings;
  @Inject InstantSource clock;

  private Ramp.Base base;
  private Visitor pilot;
  private LocalDate today;

  @BeforeEach
  void aBase() {
    base = ramp.base();
    pilot = base.company().visitor(Role.PILOT);
    today = base.owner().dateOf(clock.instant());
  }

  @Test
  void aTripThatLastsIsSaidToLast() {
    UUID id = ramp.aircraft(base, "QX-ABC", "hours=6050 landings=2000", "6000");
    assertThat(pilot.get("/aircraft/" + id + "/trip-check").asString())
        .contains("name=\"hours-1\"")
        .doesNotContain("Nothing recorded runs out");
    assertThat(pilot.get("/aircraft/" + id + "/trip-check?hours-1=50").asString())
        .contains("Nothing recorded runs out on this trip.");
  }

  @Test
  void theLegOnWhichItRunsOutIsNamed() {
    UUID id = ramp.aircraft(base, "QX-ABC", "hours=6096 landings=2000", "6000");
    Response answer =
        pilot.get(
            "/aircraft/" + id + "/trip-check?on-1=" + today + "&hours-1=2&hours-2=2:30&legs=2");
    assertThat(answer.statusCode()).isEqualTo(200);
    assertThat(answer.asString())
        .contains("It does not last: see leg 2.")
        .contains("runs out on leg 2: 4.0 h left, and the trip takes 4.5 h by the end of leg 2.")
        .contains("value=\"2:30\"");
  }

  @Test
  void whatADeferralForbidsStandsAgainstTheTrip() {
    UUID id = ramp.aircraft(base, "QX-ABC", "hours=6050 landings=2000", "6000");
    UUID deferral = ramp.deferred(base, id, "Right landing light is dead");
    String page = "/aircraft/" + id + "/trip-check?hours-1=1";
    assertThat(pilot.get(page).asString())
        .contains("Nothing recorded runs out on this trip.")
        .contains("Limited already:");
    assertThat(pilot.get(page + "&kind=night").asString())
        .contains("It may not fly this trip.")
        .contains("<a href=\"/deferrals/" + deferral + "\">Defect No. 1 is deferred</a>")
        .contains(", not at night: Day flights only");
    LocalDate afterIt = today.plusDays(12);
    assertThat(pilot.get(page + "&on-1=" + afterIt).asString())
        .contains("It may not fly this trip.")
        .contains("runs out on leg 1: good to ");
  }

  @Test
  void anotherLineIsAskedForWithoutAnAnswer() {
    UUID id = ramp.aircraft(base, "QX-ABC", "hours=6050 landings=2000", "6000");
    assertThat(pilot.get("/aircraft/" + id + "/trip-check?hours-1=3.2&more=3").asString())
        .contains("name=\"hours-3\"")
        .contains("value=\"3.2\"")
        .doesNotContain("Nothing recorded runs out");
  }

  @Test
  void whatCannotBeReadIsKeptAndExplained() {
    UUID id = ramp.aircraft(base, "QX-ABC", "hours=6050 landings=2000", "6000");
    String page = "/aircraft/" + id + "/trip-check?";
    for (String[] each :
        new String[][] {
          {"hours-1=12:75", "Hours of leg 1 has minutes or seconds above 59"},
          {"hours-1=0", "Hours of leg 1 must be more than 0"},
          {"hours-1=", "Hours of leg 1 must not be blank"},
          {"landings-1=2", "Hours of leg 1 must not be blank"},
          {"hours-1=1&on-1=" + today.minusDays(1), "Date of leg 1 must be today or later"},
          {"hours-1=1&landings-1=-2", "Landings of leg 1 must not be negative"},
          {"hours-1=1&kind=war", "What kind of flight must be among the choices shown"},
          {
            "hours-1=1&on-1=" + today.plusDays(3) + "&hours-2=1&on-2=" + today.plusDays(2),
            "Date of leg 2 must not be before leg 1"
          }
        }) {
      Response answer = pilot.get(page + each[0]);
      assertThat(answer.statusCode()).as(each[0]).isEqualTo(422);
      assertThat(answer.asString()).as(each[0]).contains(each[1]);
    }
  }

  @Test
  void theFleetIsSortedByWhatLasts() {
    Viewer owner = base.owner();
    UUID held = ramp.aircraft(base, "QX-AAA", "hours=6050 landings=2000", "6000");
    groundings.ground(owner, held, "Bird strike", null);
    ramp.aircraft(base, "QX-BBB", "hours=6099 landings=2000", "6000");
    ramp.aircraft(base, "QX-CCC", "hours=6010 landings=2000", "6000");
    String page = pilot.get("/trip-check?hours-1=5&legs=1").asString();
    assertThat(page)
        .contains("On 1 of 3 nothing recorded runs out on this trip.")
        .contains("1.0 h left, and the trip takes 5.0 h on leg 1.")
        .contains("Bird strike")
        .contains("/trip-check?hours-1=5&amp;legs=1");
    assertThat(page.indexOf("QX-CCC")).isLessThan(page.indexOf("QX-BBB"));
    assertThat(page.indexOf("QX-BBB")).isLessThan(page.indexOf("QX-AAA"));
  }

  @Test
  void anotherOperatorsAircraftIsNotHere() {
    UUID id = ramp.aircraft(base, "QX-ABC", "hours=6050 landings=2000", "6000");
    Visitor stranger = ramp.base().company().visitor(Role.PILOT);
    assertThat(stranger.get("/aircraft/" + id + "/trip-check?hours-1=1").statusCode())
        .isEqualTo(404);
    assertThat(stranger.get("/trip-check?hours-1=1").asString()).doesNotContain("QX-ABC");
  }
}
