package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import trestle.fleet.Fleet;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.standing.DueItem;
import trestle.standing.Subject;
import trestle.web.Filing;
import trestle.web.Role;
import trestle.web.Viewer;

/** An invented operator's aircraft and what must be done to them, through the use cases alone. */
@ApplicationScoped
class Upkeep {
  static final String LICENCE = "E-1";
  private static final AtomicInteger COUNT = new AtomicInteger();

  @Inject Operators operators;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject JourneyLog log;
  @Inject UsageLines lines;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject DueItems dueItems;

  /** A new operator, whose engineer has a licence. */
  Company company() {
    Company company = Company.founded("upkeep-" + COUNT.incrementAndGet(), operators, members);
    members.addLicence(
        company.viewer(Role.OWNER),
        company.people().get(Role.ENGINEER),
        new Members.NewLicence(LICENCE, "Licensed engineer", "", "", null));
    return company;
  }

  /** An aircraft whose records begin on a day with these totals: "hours=900 landings=2000". */
  UUID aircraft(Viewer owner, String registration, LocalDate from, String totals) {
    Map<Counter, Long> openings = new HashMap<>(Usage.parse(totals).toMap());
    return fleet.register(
        owner,
        new Fleet.Registering(
            Particulars.of(registration, "Skerry 200", "S-" + registration),
            Position.single(),
            start(owner, from),
            openings,
            null));
  }

  /** Flights up to a day's early afternoon, eight hours a day, until the total is reached. */
  void flyTo(Viewer pilot, UUID aircraft, String hours, LocalDate day) {
    long now = lines.of(pilot, aircraft, View.EVERYTHING).unitsAt(Instant.MAX, Counter.HOURS);
    long left = Hours.parse(hours).seconds() - now;
    List<FlightDraft> flights = new ArrayList<>();
    for (LocalDate on = day; left > 0; on = on.minusDays(1)) {
      long length = Math.min(left, 8 * 3600);
      Instant off = on.atStartOfDay(pilot.zone()).toInstant().plusSeconds(6 * 3600);
      flights.add(0, FlightDraft.of("PM", "PM", off, off.plusSeconds(length), 1, "A. Pilot"));
      left -= length;
    }
    log.fileAll(pilot, aircraft, flights);
  }

  UUID fly(Viewer pilot, UUID aircraft, Instant off, String hours) {
    Instant on = off.plusSeconds(Hours.parse(hours).seconds());
    return log.file(pilot, aircraft, FlightDraft.of("PM", "PM", off, on, 1, "A. Pilot"), null).id();
  }

  /** A mandatory requirement of one aircraft. */
  UUID requirement(Viewer owner, UUID aircraft, String title, Rule rule, LocalDate from) {
    return requirement(owner, aircraft, Terms.of(title, RequirementKind.INSPECTION, rule, from));
  }

  UUID requirement(Viewer owner, UUID aircraft, Terms terms) {
    return requirements.create(
        owner,
        NewRequirement.ofAircraft(
            aircraft, Subject.AIRCRAFT, terms, terms.effectiveOn(), "The authority"));
  }

  /** Done on a day, after that day's flights, certified by the engineer. */
  UUID done(Viewer engineer, UUID requirement, UUID aircraft, LocalDate day) {
    return compliances.file(
        engineer,
        NewCompliance.certified(
            requirement, aircraft, null, evening(engineer, day), Usage.NONE, LICENCE));
  }

  /** Where it counts from, copied from old papers. */
  UUID baseline(Viewer viewer, UUID requirement, UUID aircraft, LocalDate day, String readings) {
    return compliances.file(
        viewer,
        NewCompliance.transcribed(
                requirement,
                aircraft,
                null,
                start(viewer, day),
                Usage.parse(readings),
                "Airframe log 1")
            .asBaseline());
  }

  /** Several filings as one transaction. */
  @Filing
  <T> T filing(Viewer viewer, Supplier<T> filings) {
    return filings.get();
  }

  DueItem item(Viewer viewer, UUID requirement, UUID aircraft, LocalDate today) {
    return dueItems.dueItems(viewer, List.of(aircraft), View.asAt(today)).get(aircraft).stream()
        .filter(item -> item.requirementId().equals(requirement))
        .findFirst()
        .orElseThrow();
  }

  LimitReckoning limit(Viewer viewer, UUID requirement, UUID aircraft, LocalDate today) {
    return item(viewer, requirement, aircraft, today).controlling();
  }

  static Instant start(Viewer viewer, LocalDate day) {
    return day.atStartOfDay(viewer.zone()).toInstant();
  }

  static Instant evening(Viewer viewer, LocalDate day) {
    return day.atTime(20, 0).atZone(viewer.zone()).toInstant();
  }
}
