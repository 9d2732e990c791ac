package trestle.flights;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;

/** Fuel and oil by pages: how they are carried, what a flight leaves, and what is asked. */
@QuarkusTest
class FuelAndOilPagesTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static int companies;

  @Inject Hangar hangar;
  @Inject FuelAndOil fluids;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private Visitor owner;
  private Visitor pilot;
  private String at;
  private UUID aircraft;

  @BeforeEach
  void found() {
    company = Company.founded("fuel-and-oil-" + companies++, operators, members);
    owner = company.visitor(Role.OWNER);
    pilot = company.visitor(Role.PILOT);
    aircraft = hangar.single(company.viewer(Role.OWNER), "QX-SOR", BEGINNING);
    UUID engine =
        hangar.engine(company.viewer(Role.OWNER), "E-1", BEGINNING, Hangar.hours(100), null);
    hangar.fit(company.viewer(Role.OWNER), engine, aircraft, "engine", BEGINNING);
    at = "/aircraft/" + aircraft;
    Response stated =
        owner.fillIn(
            at + "/fuel-and-oil/arrangement",
            "/arrangement",
            Map.of(
                "tanks", "Main tanks: 148\nOuter: 40",
                "burn", "40",
                "tolerance", "3",
                "oil-unit-engine", "quarts",
                "oil-scale-engine", "left",
                "oil-limit-engine", "0.5",
                "oil-least-engine", "8"));
    assertThat(stated.statusCode()).as(stated.asString()).isEqualTo(303);
  }

  @Test
  void theFormAsksTankByTankAndNamesTheScale() {
    assertThat(pilot.get(at + "/flights/new").asString())
        .contains("Main tanks", "Outer", "By dip now", "quarts, read the LEFT scale")
        .doesNotContain("Fuel in tanks now");
  }

  @Test
  void whatAgreesIsFiledAndShown() {
    assertThat(log("09:00", "10:00", fuel("120", "30", "11")).statusCode()).isEqualTo(303);
    Response second = log("11:00", "12:00", fuel("82", "30", "10.8"));
    assertThat(second.statusCode()).as(second.asString()).isEqualTo(303);
    assertThat(pilot.get(at + "/fuel-and-oil").asString())
        .contains("All tanks: about 110 litres expected, 112 read: 2 more, within your 3 %.")
        .contains("0.2 an hour")
        .contains("Limit 0.5 quarts an hour.");
    FluidState state = fluids.state(company.viewer(Role.PILOT), aircraft, View.EVERYTHING);
    assertThat(state.total()).isEqualByComparingTo("112");
    assertThat(state.engines().get(0).amount()).isEqualByComparingTo("10.8");
  }

  @Test
  void missingFuelIsAskedAboutAndFiledWithAWordOnIt() {
    log("09:00", "10:00", fuel("120", "30", "11"));
    Map<String, String> found = fuel("60", "30", "10.8");
    Response asked = log("11:00", "12:00", found);
    assertThat(asked.statusCode()).isEqualTo(422);
    assertThat(asked.asString())
        .contains("about 110 litres expected, 90 read: 20 less, more than your 3 %")
        .contains("value=\"60\"", "fluid-remark");
    found.put("fluid-remark", "Drained for the tank’s repair");
    Map<String, String> answered = flight("11:00", "12:00", found);
    answered.put("landings", "1");
    answered.put("commander", "A pilot");
    assertThat(pilot.post(at + "/flights", answered).statusCode()).isEqualTo(303);
    assertThat(pilot.get(at + "/fuel-and-oil").asString())
        .contains("Drained for the tank’s repair");
  }

  @Test
  void aTankThatHoldsWhatItCannotHoldIsAskedAbout() {
    log("09:00", "10:00", fuel("120", "30", "11"));
    assertThat(log("11:00", "12:00", fuel("70", "40", "10.8")).asString())
        .as("all tanks agree, and yet one gained what the other lost")
        .contains("Outer: 30 litres at most by what was left and put in, 40 read: 10 more")
        .contains("Main tanks: 80 litres at least, had all been burned from here, 70 read")
        .doesNotContain("All tanks: about");
    Map<String, String> filled = fuel("86", "39", "10.8");
    filled.put("fuel-added-outer", "10");
    filled.put("fuel-added-main-tanks", "5");
    assertThat(log("11:00", "12:00", filled).statusCode()).isEqualTo(303);
  }

  /** Of a flight after which not every tank was read, what was put in and burned still counts. */
  @Test
  void whatIsExpectedGoesOutFromTheLastTimeThatEveryTankWasRead() {
    log("09:00", "10:00", fuel("120", "30", "11"));
    Map<String, String> between = new HashMap<>();
    between.put("fuel-added-main-tanks", "20");
    between.put("fuel-dip-outer", "30");
    Response filed = log("11:00", "12:00", between);
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);
    Response last = log("13:00", "14:00", fuel("60", "30", "10.6"));
    assertThat(last.statusCode()).as(last.asString()).isEqualTo(303);
    assertThat(pilot.get(at + "/fuel-and-oil").asString())
        .contains("All tanks: about 90 litres expected, 90 read: 0 more, within your 3 %.")
        .contains("reckoned of all tanks together");
  }

  @Test
  void anOilLevelThatRisesOrFallsTooFastIsAskedAbout() {
    log("09:00", "10:00", fuel("120", "30", "9"));
    assertThat(log("11:00", "12:00", fuel("80", "30", "9.5")).asString())
        .contains("the oil level rose by 0.5 quarts with nothing added", "Is it the LEFT scale?");
    assertThat(log("11:00", "12:00", fuel("80", "30", "8.2")).asString())
        .contains("0.8 an hour; its limit is 0.5 quarts an hour");
    assertThat(log("11:00", "12:00", fuel("80", "30", "7.9")).asString())
        .contains("below the least it may run with, 8 quarts");
  }

  @Test
  void badAmountsAreRefusedAtTheirFields() {
    Map<String, String> wrong = fuel("149", "x", "9");
    wrong.put("fuel-added-main-tanks", "20");
    wrong.put("fuel-added-in", "kg");
    Response refused = log("09:00", "10:00", wrong);
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString())
        .contains("Main tanks by dip must be at most 148", "Outer by dip must be a number")
        .contains("Density is needed: fuel put in is in kg");
    assertThat(fluids.state(company.viewer(Role.PILOT), aircraft, View.EVERYTHING).total())
        .isNull();
  }

  @Test
  void aReadingIsCorrectedAndAVoidFlightTakesItsReadingAlong() {
    Response filed = log("09:00", "10:00", fuel("120", "30", "9"));
    UUID reading =
        fluids
            .compared(company.viewer(Role.PILOT), aircraft, View.EVERYTHING)
            .get(0)
            .reading()
            .id();
    String correction = "/fuel-and-oil/" + reading + "/correction";
    Map<String, String> right =
        Map.of("fuel-dip-main-tanks", "102", "reason", "Read it upside down");
    assertThat(pilot.fillIn(correction, "/correction", right).statusCode()).isEqualTo(303);
    assertThat(fluids.state(company.viewer(Role.PILOT), aircraft, View.EVERYTHING).total())
        .isEqualByComparingTo("132");
    assertThat(pilot.fillIn(correction, "/correction", right).statusCode()).isEqualTo(409);
    String flight = filed.header("Location").replaceAll("^https?://[^/]+|\\?.*$", "");
    pilot.fillIn(
        flight + "/correction", "/correction", Map.of("void", "yes", "reason", "Never flown"));
    assertThat(fluids.state(company.viewer(Role.PILOT), aircraft, View.EVERYTHING).total())
        .isNull();
  }

  private Response log(String takeOff, String landing, Map<String, String> found) {
    return pilot.fillIn(at + "/flights/new", "/flights", flight(takeOff, landing, found));
  }

  private static Map<String, String> flight(
      String takeOff, String landing, Map<String, String> found) {
    Map<String, String> flight = new HashMap<>(found);
    flight.put("date", "10 Mar 2025");
    flight.put("from", "Port Maddern");
    flight.put("to", "Skell Island");
    flight.put("take-off", takeOff);
    flight.put("landing", landing);
    return flight;
  }

  private static Map<String, String> fuel(String main, String outer, String oil) {
    Map<String, String> found = new HashMap<>();
    found.put("fuel-dip-main-tanks", main);
    found.put("fuel-dip-outer", outer);
    found.put("oil-level-engine", oil);
    return found;
  }
}
