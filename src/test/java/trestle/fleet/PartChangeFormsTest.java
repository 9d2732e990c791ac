package trestle.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.people.Visitor.Filled;
import trestle.web.Role;
import trestle.web.Viewer;

/** The forms on which parts are changed without a work order, as a person fills them in. */
@QuarkusTest
class PartChangeFormsTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T12:00:00Z");
  private static final String MISSING = "and no release is recorded.";

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject Groundings groundings;

  private Company company;
  private Viewer owner;
  private Visitor engineer;
  private UUID aircraft;
  private UUID engine;

  @BeforeEach
  void found() {
    company = Company.founded("change-forms-" + UUID.randomUUID(), operators, members);
    owner = company.viewer(Role.OWNER);
    engineer = company.visitor(Role.ENGINEER);
    aircraft = hangar.single(owner, "QX-CHF", BEGINNING);
    engine = engine("E-1");
    hangar.fit(owner, engine, aircraft, "engine", BEGINNING);
  }

  @Test
  void aBlankReleaseIsShownAsWhatHoldsTheAircraft() {
    Filled form = removal("");
    filed(engineer.send(form));
    filed(engineer.send(form));
    String held =
        "Engine Tarn 360, serial E-1, was removed from Engine on 25 November 2025, " + MISSING;
    assertThat(engineer.get("/aircraft/" + aircraft).asString()).contains(held);
    assertThat(groundings.history(owner, aircraft, View.EVERYTHING)).hasSize(1);
    Visitor stranger =
        Company.founded("change-other-" + UUID.randomUUID(), operators, members)
            .visitor(Role.OWNER);
    assertThat(stranger.send(form).statusCode()).isEqualTo(404);
    assertThat(stranger.get("/aircraft/" + aircraft).statusCode()).isEqualTo(404);
    assertThat(stranger.get("/fleet").asString()).doesNotContain("QX-CHF", MISSING);
  }

  @Test
  void aNamedReleaseIsInTheRecordAndHoldsNothing() {
    filed(engineer.send(removal("Certificate R-<7>")));
    filed(
        engineer.fillIn(
            "/components/" + engine + "/fitments",
            "/fitments",
            Map.of(
                "place", aircraft + "/engine", "on", "26 Nov 2025", "release", "Certificate R-8")));
    filed(engineer.send(swap(engine("E-2"), "Certificate R-9")));
    assertThat(groundings.history(owner, aircraft, View.EVERYTHING)).isEmpty();
    assertThat(records()).contains("Certificate R-&lt;7&gt;", "Certificate R-8", "Certificate R-9");
  }

  /** Whoever puts the moment right says nothing about the release: what was named stays named. */
  @Test
  void aCorrectionKeepsTheRelease() {
    filed(engineer.send(removal("Certificate R-7")));
    String removal = "/corrections/" + hangar.removalOf(owner, engine);
    filed(
        engineer.fillIn(
            "/components/" + engine + removal,
            removal,
            Map.of("on", "24 Nov 2025", "reason", "Read from the wrong line")));
    assertThat(records()).contains("<h2>Correction", "<dd>Certificate R-7</dd>");
    assertThat(groundings.history(owner, aircraft, View.EVERYTHING)).isEmpty();
  }

  @Test
  void aSwapAndAFitmentWithoutOneHoldToo() {
    UUID other = engine("E-2");
    filed(engineer.send(swap(other, "")));
    filed(engineer.fillIn("/components/" + other + "/removals", "/removals", Map.of()));
    filed(
        engineer.fillIn(
            "/components/" + engine + "/fitments",
            "/fitments",
            Map.of("place", aircraft + "/engine")));
    assertThat(groundings.history(owner, aircraft, View.EVERYTHING))
        .hasSize(3)
        .allMatch(row -> row.why().endsWith(MISSING));
  }

  @Test
  void aReleaseOfTooManyCharactersIsRefusedBesideItsField() {
    Response refused = engineer.send(removal("R".repeat(201)));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString()).contains("id=\"release-error\"");
    assertThat(groundings.history(owner, aircraft, View.EVERYTHING)).isEmpty();
  }

  private Filled removal(String release) {
    return engineer.filled(
        "/components/" + engine + "/removals",
        "/removals",
        Map.of("on", "25 Nov 2025", "release", release));
  }

  private Filled swap(UUID other, String release) {
    Map<String, String> typed = new LinkedHashMap<>();
    typed.put("other", other.toString());
    typed.put("why", "Rough running");
    typed.put("on", "27 Nov 2025");
    typed.put("release", release);
    return engineer.filled("/components/" + engine + "/swaps", "/swaps", typed);
  }

  private UUID engine(String serial) {
    return hangar.engine(owner, serial, BEGINNING.minus(Duration.ofDays(9)), 3_600L, null);
  }

  /** The pages of all records that the first page of the history names. */
  private String records() {
    Visitor reader = company.visitor(Role.OWNER);
    List<String> pages =
        Pattern.compile("<a href=\"(/records/[^\"]+)\"")
            .matcher(reader.get("/history").asString())
            .results()
            .map(found -> found.group(1))
            .distinct()
            .toList();
    StringBuilder all = new StringBuilder();
    pages.forEach(page -> all.append(reader.get(page).asString()));
    return all.toString();
  }

  private static void filed(Response answer) {
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(303);
  }
}
