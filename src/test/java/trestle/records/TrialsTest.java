package trestle.records;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import trestle.fleet.Components;
import trestle.fleet.Effects;
import trestle.fleet.Fitments;
import trestle.fleet.Hangar;
import trestle.fleet.Views;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.programme.Compliances;
import trestle.programme.NewCompliance;
import trestle.programme.NewRequirement;
import trestle.programme.RequirementKind;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.standing.Subject;
import trestle.web.Role;
import trestle.web.Viewer;

/** What a correction would move is told before it is filed, and is what it then moves. */
@QuarkusTest
class TrialsTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T12:00:00Z");
  private static final String LICENCE = "E-9";

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject JourneyLog log;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject Components components;
  @Inject trestle.fleet.ComponentCorrections corrections;
  @Inject Effects effects;
  @Inject Trials trials;
  @Inject Views views;

  private Company company;
  private Viewer owner;
  private Viewer engineer;
  private LocalDate today;
  private UUID aircraft;
  private UUID requirement;

  @Test
  void aFlightThatNeverWasMovesTotalsAndWhatFallsDue() throws Exception {
    found("QX-TRA");
    UUID first = fly(10, 90);
    UUID second = fly(30, 60);
    UUID work = compliances.file(engineer, work(40));
    UUID engine = hangar.engine(owner, "T-1", BEGINNING, Hangar.hours(500), Hangar.hours(100));
    UUID fitment = hangar.fit(owner, engine, aircraft, "engine", BEGINNING);

    long before = views.knownOn(owner, today);
    Effects.Told told =
        effects.of(owner, first, List.of(aircraft), () -> log.voided(owner, first, "x", null));
    assertThat(views.knownOn(owner, today)).as("nothing is filed").isEqualTo(before);
    Map<String, Effects.Move> moves = moves(told);
    assertThat(moves.get("Total hours").before()).contains("6,002.5");
    assertThat(moves.get("Total hours").after()).contains("6,001.0");
    assertThat(moves.get("Total landings").after()).isEqualTo("2,001");
    assertThat(moves.get("Fifty-hour check").before()).contains("due 6,052.5");
    assertThat(moves.get("Fifty-hour check").after()).contains("due 6,051.0");
    assertThat(moves.entrySet())
        .anyMatch(
            move ->
                move.getKey().contains("T-1")
                    && move.getValue().before().contains("since new 502.5")
                    && move.getValue().after().contains("since new 501.0"));
    assertThat(told.rested()).hasSize(1);
    assertThat(told.rested().get(0).words()).startsWith("Compliance");
    assertThat(told.rested().get(0).link()).isEqualTo("/records/" + work);

    Effects.Told unfitted =
        effects.of(
            owner,
            fitment,
            List.of(aircraft),
            () ->
                corrections.correctFitment(
                    owner, new Fitments.Correcting(fitment, BEGINNING, true, "x", null)));
    assertThat(unfitted.moves())
        .anyMatch(move -> move.what().contains("T-1") && move.after().equals("nothing"));

    Map<UUID, Trials.Figures> now = trials.now(owner, List.of(aircraft));
    log.voided(owner, first, "Not flown", null);
    Map<String, String> then = trials.now(owner, List.of(aircraft)).get(aircraft).values();
    assertThat(now.get(aircraft).values()).isNotEqualTo(then);
    moves.forEach((what, move) -> assertThat(then.get(what)).as(what).isEqualTo(move.after()));
    assertThat(second).isNotEqualTo(first);
  }

  @Test
  void whatIsRefusedSaysSoAndFilesNothing() {
    found("QX-TRB");
    UUID flight = fly(10, 90);
    log.voided(owner, flight, "Not flown", null);
    Effects.Told told =
        effects.of(owner, flight, List.of(aircraft), () -> log.voided(owner, flight, "x", null));
    assertThat(told.refused()).isNotBlank();
    assertThat(told.moves()).isEmpty();
  }

  @Test
  void theFormsListItBeforeAnybodyPresses() {
    found("QX-TRC");
    UUID flight = fly(10, 90);
    UUID work = compliances.file(engineer, work(40));
    Visitor controller = company.visitor(Role.CONTROLLER);
    String form = "/flights/" + flight + "/correction";
    assertThat(controller.get(form).asString())
        .contains("Were there no such flight, this moves:", "<s>6,001.5 h</s>", "<b>6,000.0 h</b>")
        .contains("/records/" + work);
    var tried = controller.fillIn(form, "/correction", Map.of("landing", "22:30", "preview", "1"));
    assertThat(tried.statusCode()).as(tried.asString()).isEqualTo(200);
    assertThat(tried.asString()).contains("With what is typed here, this moves:");
    assertThat(controller.get(form).asString()).contains("<s>6,001.5 h</s>");
    Visitor engineers = company.visitor(Role.ENGINEER);
    assertThat(engineers.get("/compliances/" + work + "/correction").asString())
        .contains("Were it taken away, this moves:", "Fifty-hour check");
    Visitor owners = company.visitor(Role.OWNER);
    assertThat(owners.get("/requirements/" + requirement + "/revision").asString())
        .contains("Were it withdrawn today, this moves:", "<b>nothing</b>");
  }

  private void found(String registration) {
    company = Company.founded("trial-" + UUID.randomUUID(), operators, members);
    owner = company.viewer(Role.OWNER);
    engineer = company.viewer(Role.ENGINEER);
    members.addLicence(
        owner,
        company.people().get(Role.ENGINEER),
        new Members.NewLicence(LICENCE, "Licensed engineer", "", "", null));
    today = owner.dateOf(Instant.now());
    aircraft = hangar.single(owner, registration, BEGINNING);
    requirement =
        requirements.create(
            owner,
            NewRequirement.ofAircraft(
                aircraft,
                Subject.AIRCRAFT,
                Terms.of(
                    "Fifty-hour check",
                    RequirementKind.INSPECTION,
                    Rule.first(Limit.Every.of(Counter.HOURS, "50")),
                    LocalDate.of(2025, 1, 1)),
                LocalDate.of(2025, 1, 1),
                "The authority"));
  }

  private UUID fly(int hour, int minutes) {
    Instant off = BEGINNING.plus(hour, ChronoUnit.HOURS);
    return log.file(
            owner,
            aircraft,
            FlightDraft.of("PM", "PM", off, off.plus(minutes, ChronoUnit.MINUTES), 1, "A. Pilot"),
            null)
        .id();
  }

  private NewCompliance work(int hour) {
    Instant at = BEGINNING.plus(hour, ChronoUnit.HOURS);
    return NewCompliance.certified(requirement, aircraft, null, at, Usage.NONE, LICENCE);
  }

  private static Map<String, Effects.Move> moves(Effects.Told told) {
    return told.moves().stream().collect(Collectors.toMap(Effects.Move::what, move -> move));
  }
}
