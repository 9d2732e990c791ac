package trestle.overview;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import trestle.defects.DefectDraft;
import trestle.defects.Defects;
import trestle.defects.Judgement;
import trestle.defects.OpenDefects;
import trestle.fleet.ComponentCorrections;
import trestle.fleet.Fitments;
import trestle.fleet.Groundings;
import trestle.fleet.Hangar;
import trestle.fleet.Views;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
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
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Histories made up at random, with corrections and records taken away again: what is shown "as it
 * was known at record n" is what was shown when n was the last record, of that day and of earlier
 * ones, whatever has been filed since.
 */
@QuarkusTest
class AsKnownThenTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T12:00:00Z");
  private static final LocalDate PAST = LocalDate.of(2025, 4, 1);
  private static final String LICENCE = "E-9";

  /** More on request: -Dtrestle.acts=60; each is compared with all before it. */
  private static final int ACTS = Integer.getInteger("trestle.acts", 28);

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject JourneyLog log;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject Defects defects;
  @Inject OpenDefects open;
  @Inject Groundings groundings;
  @Inject Fitments fitments;
  @Inject ComponentCorrections corrections;
  @Inject Overviews overviews;
  @Inject StatusSheets sheets;
  @Inject Views views;

  private Random random;
  private Viewer owner;
  private Viewer engineer;
  private LocalDate today;
  private UUID aircraft;
  private UUID requirement;
  private UUID engine;
  private UUID fitment;
  private final List<UUID> flights = new ArrayList<>();
  private final List<UUID> works = new ArrayList<>();
  private final List<UUID> defected = new ArrayList<>();

  /** What was shown when a record was the last. */
  private record Then(long last, List<String> now, List<String> past) {}

  @ParameterizedTest
  @ValueSource(longs = {1, 20_261_126, 77})
  void whatWasShownThenIsShownAgain(long seed) {
    random = new Random(seed);
    found();
    List<Then> thens = new ArrayList<>();
    for (int act = 0; act < ACTS; act++) {
      file();
      long last = views.knownOn(owner, today);
      thens.add(new Then(last, shown(new View(today, null)), shown(new View(PAST, null))));
    }
    assertThat(thens.stream().map(Then::now).distinct().count())
        .as("histories that tell something")
        .isGreaterThan(ACTS / 3);
    for (Then then : thens) {
      assertThat(shown(new View(today, then.last())))
          .as("record " + then.last())
          .isEqualTo(then.now());
      assertThat(shown(new View(PAST, then.last())))
          .as("record " + then.last())
          .isEqualTo(then.past());
    }
  }

  private void found() {
    Company company = Company.founded("known-" + UUID.randomUUID(), operators, members);
    owner = company.viewer(Role.OWNER);
    engineer = company.viewer(Role.ENGINEER);
    members.addLicence(
        owner,
        company.people().get(Role.ENGINEER),
        new Members.NewLicence(LICENCE, "Licensed engineer", "", "", null));
    today = owner.dateOf(Instant.now());
    aircraft = hangar.single(owner, "QX-RND", BEGINNING);
    engine = hangar.engine(owner, "K-1", BEGINNING, Hangar.hours(500), Hangar.hours(100));
    fitment = hangar.fit(owner, engine, aircraft, "engine", BEGINNING);
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

  private List<String> shown(View view) {
    AsAt at = new AsAt(Form.blank(), today, view, false);
    List<String> all = new ArrayList<>();
    AircraftOverview overview = overviews.aircraft(owner, aircraft, at);
    all.add(overview.standing().toString());
    all.add(overview.strip().hoursTo());
    overview.strip().totals().forEach(total -> all.add(total.toString()));
    overview.rows().forEach(row -> all.add(row.title() + " " + row.lines() + row.lastDone()));
    sheets.of(owner, aircraft, at).parts().forEach(part -> all.add(part.toString()));
    open.of(owner, List.of(aircraft), view).values().forEach(lines -> all.add(lines.toString()));
    return all;
  }

  /** One act of a person; what is refused is filed by nobody. */
  private void file() {
    try {
      act(random.nextInt(12));
    } catch (Refusal | Stale refused) {
      act(0);
    }
  }

  private void act(int which) {
    switch (which) {
      case 0, 1, 2 -> flights.add(log.file(owner, aircraft, flight(), null).id());
      case 3 -> replaceFlight(log.correct(owner, one(flights), flight(), "Misread", null).id());
      case 4 -> replaceFlight(log.voided(owner, one(flights), "Not flown", null).id());
      case 5, 6 -> works.add(compliances.file(engineer, work()));
      case 7 -> works.add(compliances.correct(engineer, one(works), work(), "Misread"));
      case 8 -> works.add(compliances.voided(engineer, one(works), "Not done", null));
      case 9 -> defected.add(defects.report(owner, aircraft, defect(), List.of(), null, null).id());
      case 10 ->
          defected.add(
              defects.correct(owner, one(defected), defect(), List.of(), "Misread", null).id());
      default -> refit();
    }
  }

  private UUID one(List<UUID> filed) {
    if (filed.isEmpty()) {
      throw new Refusal("", "There is none yet.");
    }
    return filed.get(random.nextInt(filed.size()));
  }

  private void replaceFlight(UUID row) {
    flights.add(row);
  }

  private void refit() {
    if (random.nextBoolean()) {
      Instant at = moment();
      corrections.correctFitment(
          engineer, new Fitments.Correcting(fitment, at, false, "Misread", null));
    } else {
      groundings.ground(owner, aircraft, "Bird on the wing", null);
    }
  }

  private FlightDraft flight() {
    Instant off = moment();
    Instant on = off.plus(10 + random.nextInt(180), ChronoUnit.MINUTES);
    return FlightDraft.of("PM", "PM", off, on, 1 + random.nextInt(3), "A. Pilot");
  }

  private NewCompliance work() {
    return NewCompliance.certified(requirement, aircraft, null, moment(), Usage.NONE, LICENCE);
  }

  private DefectDraft defect() {
    Judgement judgement = random.nextBoolean() ? Judgement.MUST_NOT_FLY : Judgement.CAN_FLY;
    return new DefectDraft(
        "Radio dead " + random.nextInt(9),
        "23",
        "",
        null,
        null,
        judgement,
        null,
        false,
        "",
        moment());
  }

  private Instant moment() {
    return BEGINNING.plus(1 + random.nextInt(180 * 24), ChronoUnit.HOURS);
  }
}
