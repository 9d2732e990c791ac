package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.PartKind;
import trestle.flights.Rates;
import trestle.formats.JsonText;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.reckoning.Counter;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.standing.DueItem;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * A thousand rules at random, each filed as a requirement of one component with its history copied
 * from papers, give the answers of the stateless check for the same cases.
 */
@QuarkusTest
class FiledRulesTest {
  private static final int CASES = 1_000;
  private static final LocalDate TODAY = LocalDate.of(2025, 6, 30);
  private static final LocalDate NEW_ON = LocalDate.of(2006, 2, 28);
  private static final LocalDate OVERHAULED_ON = LocalDate.of(2012, 8, 31);
  private static final Map<String, Long> TOTALS =
      Map.of("hours", 15_000_000L, "landings", 10_000L, "heater-hours", 6_000_000L);
  private static final Map<String, Long> SINCE_OVERHAUL =
      Map.of("hours", 5_000_000L, "landings", 4_000L, "heater-hours", 1_000_000L);

  @Inject Upkeep upkeep;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject DueItems dueItems;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject Rates rates;

  @Test
  void giveWhatTheStatelessCheckSays() {
    Company company = upkeep.company();
    Viewer owner = company.viewer(Role.OWNER);
    UUID component = component(owner);
    long seed = new Random().nextLong();
    RandomCases cases = new RandomCases(seed);
    Map<UUID, ObjectNode> filed = new HashMap<>();
    while (filed.size() < CASES) {
      ObjectNode body = likeTheComponent(cases.next());
      if (!repeatsItself(body)) {
        filed.put(upkeep.filing(owner, () -> file(owner, component, body)), body);
      }
    }
    List<DueItem> items = dueItems.onComponent(owner, component, View.asAt(TODAY));
    assertThat(items).hasSize(CASES);
    for (DueItem item : items) {
      ObjectNode body = filed.get(item.requirementId());
      Asked asked = Asked.of(body.toString());
      assertThat(asked.status()).as("seed %d: %s %s", seed, body, asked.answer()).isEqualTo(200);
      assertThat(Asked.tree(JsonText.write(ReckoningJson.json(item.reckoning()))))
          .as("seed %d: %s", seed, body)
          .isEqualTo(asked.answer());
    }
  }

  /** A component whose totals are known from the last hour of today on, fitted right after. */
  private UUID component(Viewer owner) {
    Map<Counter, Components.Run> runs = new HashMap<>();
    TOTALS.forEach(
        (counter, total) ->
            runs.put(new Counter(counter), new Components.Run(total, SINCE_OVERHAUL.get(counter))));
    Instant at = TODAY.atTime(23, 0).atZone(owner.zone()).toInstant();
    UUID component =
        components.register(
            owner,
            new Components.Registering(
                PartKind.ENGINE,
                "TARN-360",
                "R-1",
                "Engine Tarn 360",
                "Tarn Works",
                at,
                runs,
                NEW_ON,
                OVERHAULED_ON,
                null));
    UUID aircraft =
        upkeep.aircraft(
            owner, "QX-RND", LocalDate.of(2020, 1, 1), "hours=1 landings=1 heater-hours=1");
    fitments.fit(owner, new Fitments.Fit(component, aircraft, "engine", at.plusSeconds(600), null));
    // A rate holds from when it is stated, which is after the day looked at: none is known then.
    rates.state(owner, aircraft, Counter.HOURS, new BigDecimal("0.8"), null);
    return component;
  }

  private UUID file(Viewer owner, UUID component, ObjectNode body) {
    Rule rule = RuleJson.parse(body.get("rule").toString());
    UUID requirement =
        requirements.create(
            owner,
            NewRequirement.ofComponent(
                component,
                Terms.of("At random", RequirementKind.OTHER, rule, NEW_ON),
                NEW_ON,
                "Nobody"));
    if (body.has("baseline")) {
      compliances.file(
          owner, row(owner, requirement, component, body.get("baseline")).asBaseline());
    }
    for (JsonNode done : body.get("history")) {
      compliances.file(owner, row(owner, requirement, component, done));
    }
    return requirement;
  }

  private static NewCompliance row(
      Viewer owner, UUID requirement, UUID component, JsonNode reading) {
    return NewCompliance.transcribed(
        requirement,
        null,
        component,
        Upkeep.start(owner, LocalDate.parse(reading.get("on").asText())),
        Readings.parse(reading.get("usage").toString()),
        "Engine log 1");
  }

  /** Moves a case in time and along its counters until its now is the component's. */
  private static ObjectNode likeTheComponent(ObjectNode body) {
    long days = ChronoUnit.DAYS.between(LocalDate.parse(body.get("asOf").asText()), TODAY);
    Usage now = Readings.parse(body.get("usage").toString());
    Map<Counter, Long> further = new HashMap<>();
    now.toMap()
        .forEach((counter, units) -> further.put(counter, TOTALS.get(counter.name()) - units));
    body.put("asOf", TODAY.toString());
    List<JsonNode> readings = new ArrayList<>(List.of(body));
    body.get("history").forEach(readings::add);
    if (body.has("baseline")) {
      readings.add(body.get("baseline"));
    }
    for (JsonNode reading : readings) {
      if (reading.has("on")) {
        LocalDate day = LocalDate.parse(reading.get("on").asText()).plusDays(days);
        ((ObjectNode) reading).put("on", day.toString());
      }
      move((ObjectNode) reading.get("usage"), further);
    }
    ObjectNode origins = body.putObject("origins");
    origins.putObject("new").put("on", NEW_ON.toString()).set("usage", usage(units -> 0L));
    origins
        .putObject("overhaul")
        .put("on", OVERHAULED_ON.toString())
        .set("usage", usage(name -> TOTALS.get(name) - SINCE_OVERHAUL.get(name)));
    body.putObject("utilisation");
    return (ObjectNode) Asked.tree(body.toString().replace("\"effective\"", "\"overhaul\""));
  }

  private static void move(ObjectNode usage, Map<Counter, Long> further) {
    Readings.parse(usage.toString())
        .toMap()
        .forEach(
            (counter, units) ->
                usage.put(counter.name(), counter.unit().show(units + further.get(counter))));
  }

  private static ObjectNode usage(Function<String, Long> units) {
    ObjectNode usage = Asked.JSON.createObjectNode();
    TOTALS
        .keySet()
        .forEach(name -> usage.put(name, new Counter(name).unit().show(units.apply(name))));
    return usage;
  }

  /** The same work twice on one occasion is filed, but counts once. */
  private static boolean repeatsItself(ObjectNode body) {
    JsonNode before = null;
    for (JsonNode done : body.get("history")) {
      if (done.equals(before)) {
        return true;
      }
      before = done;
    }
    return false;
  }
}
