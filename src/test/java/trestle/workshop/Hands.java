package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import trestle.defects.DefectDraft;
import trestle.defects.Defects;
import trestle.defects.Judgement;
import trestle.fleet.Components;
import trestle.fleet.Fitments;
import trestle.fleet.Fleet;
import trestle.fleet.PartKind;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Proof;
import trestle.profiles.NewProfile;
import trestle.profiles.RuleProfiles;
import trestle.programme.Compliances;
import trestle.programme.DueItems;
import trestle.programme.NewCompliance;
import trestle.programme.NewRequirement;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.Usage;
import trestle.standing.DueItem;
import trestle.standing.Standing;
import trestle.standing.Standings;
import trestle.web.Role;
import trestle.web.Viewer;

/** An invented hangar: an operator with several engineers, an aircraft, what is due on it. */
@ApplicationScoped
public class Hands {
  static final String DATA = "Example manual 5-20";
  private static final AtomicInteger COUNT = new AtomicInteger();

  @Inject Operators operators;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject JourneyLog log;
  @Inject UsageLines lines;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject DueItems dueItems;
  @Inject RuleProfiles profiles;
  @Inject Defects defects;
  @Inject Standings standings;

  /** An engineer: who they are, what they sign in with, the licence they sign under. */
  record Engineer(Viewer viewer, String signIn, String password, String licence) {}

  Company company() {
    return Company.founded("hands-" + COUNT.incrementAndGet(), operators, members);
  }

  /**
   * @param ratings of their licence, separated by commas
   * @param expires null: never
   */
  Engineer engineer(Company company, String name, String ratings, LocalDate expires) {
    Viewer owner = company.viewer(Role.OWNER);
    String signIn =
        name.toLowerCase(java.util.Locale.ROOT).replace(' ', '.') + "@" + company.name();
    Members.Welcome welcome = members.takeIn(owner, name, signIn, Set.of(Role.ENGINEER));
    String licence = "L-" + COUNT.incrementAndGet();
    members.addLicence(
        owner,
        welcome.personId(),
        new Members.NewLicence(licence, "Licensed engineer", ratings, "", expires));
    Viewer viewer =
        new Viewer(
            welcome.personId(),
            name,
            false,
            company.operatorId(),
            company.name(),
            owner.zone(),
            true,
            Set.of(Role.ENGINEER));
    return new Engineer(viewer, signIn, welcome.password(), licence);
  }

  Proof proof(Engineer engineer) {
    return identity.prove(engineer.viewer(), engineer.password());
  }

  void rules(Viewer owner, String example, LocalDate from) {
    profiles.revise(
        owner,
        new NewProfile(
            null,
            null,
            example,
            profiles.chosen(owner, null, example),
            from,
            "Rules chosen",
            "The authority",
            null));
  }

  /** The same for one aircraft alone. */
  void rulesOf(Viewer owner, UUID aircraft, String example, LocalDate from) {
    profiles.revise(
        owner,
        new NewProfile(
            aircraft,
            null,
            example,
            profiles.chosen(owner, aircraft, example),
            from,
            "Rules chosen",
            "The authority",
            null));
  }

  /** A single with an engine fitted, whose records begin on a day: "hours=900 landings=2000". */
  UUID aircraft(Viewer owner, String registration, LocalDate from, String totals) {
    UUID aircraft =
        fleet.register(
            owner,
            new Fleet.Registering(
                Particulars.of(registration, "Skerry 200", "S-" + registration),
                List.of(new Position("engine", PartKind.ENGINE, "Engine", true)),
                start(owner, from),
                new HashMap<>(Usage.parse(totals).toMap()),
                null));
    UUID engine =
        component(owner, PartKind.ENGINE, "TARN-360", "E-" + registration, "Engine", from);
    fitments.fit(owner, new Fitments.Fit(engine, aircraft, "engine", start(owner, from), null));
    return aircraft;
  }

  UUID component(
      Viewer owner, PartKind kind, String part, String serial, String words, LocalDate from) {
    return components.register(
        owner,
        new Components.Registering(
            kind,
            part,
            serial,
            words,
            "Tarn Works",
            start(owner, from),
            Map.of(Counter.HOURS, new Components.Run(0L, 0L)),
            from,
            from,
            null));
  }

  /** Flights up to a day's early afternoon, eight hours a day, until the total is reached. */
  void flyTo(Viewer pilot, UUID aircraft, String hours, LocalDate day) {
    long now = lines.of(pilot, aircraft, View.EVERYTHING).unitsAt(Instant.MAX, Counter.HOURS);
    long left = Hours.parse(hours).seconds() - now;
    List<FlightDraft> flights = new ArrayList<>();
    for (LocalDate on = day; left > 0; on = on.minusDays(1)) {
      long length = Math.min(left, 8 * 3600);
      Instant off = start(pilot, on).plusSeconds(6 * 3600);
      flights.add(0, FlightDraft.of("PM", "PM", off, off.plusSeconds(length), 1, "A. Pilot"));
      left -= length;
    }
    log.fileAll(pilot, aircraft, flights);
  }

  UUID requirement(Viewer owner, UUID aircraft, Terms terms) {
    return requirements.create(
        owner,
        NewRequirement.ofAircraft(
            aircraft, "aircraft", terms, terms.effectiveOn(), "The authority"));
  }

  void baseline(Viewer viewer, UUID requirement, UUID aircraft, LocalDate day, String readings) {
    compliances.file(
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

  UUID defect(Viewer viewer, UUID aircraft, String words, Judgement judgement, Instant at) {
    return defects
        .report(
            viewer,
            aircraft,
            new DefectDraft(words, "24", "", null, null, judgement, null, false, "", at),
            List.of(),
            null,
            null)
        .entryId();
  }

  DueItem due(Viewer viewer, UUID requirement, UUID aircraft, LocalDate day) {
    return dueItems.dueItems(viewer, List.of(aircraft), View.asAt(day)).get(aircraft).stream()
        .filter(item -> item.requirementId().equals(requirement))
        .findFirst()
        .orElseThrow();
  }

  Standing standing(Viewer viewer, UUID aircraft, LocalDate day) {
    return standings.asAt(viewer, List.of(aircraft), View.asAt(day)).get(aircraft).standing();
  }

  static Instant start(Viewer viewer, LocalDate day) {
    return day.atStartOfDay(viewer.zone()).toInstant();
  }

  static Instant at(Viewer viewer, String day, int hour) {
    return LocalDate.parse(day).atTime(hour, 0).atZone(viewer.zone()).toInstant();
  }
}
