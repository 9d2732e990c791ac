package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import trestle.defects.AbnormalEvents;
import trestle.defects.CertifiedWork;
import trestle.defects.DefectDraft;
import trestle.defects.Defects;
import trestle.defects.Deferrals;
import trestle.defects.EventInspections;
import trestle.defects.Judgement;
import trestle.defects.NewDeferral;
import trestle.defects.Rectifications;
import trestle.fleet.Fleet;
import trestle.fleet.Particulars;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.programme.Compliances;
import trestle.programme.NewCompliance;
import trestle.programme.NewRequirement;
import trestle.programme.RequirementKind;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.DeferralClock;
import trestle.reckoning.Hours;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.standing.Subject;
import trestle.web.Role;
import trestle.web.Viewer;

/** An invented operator's aircraft as a pilot finds them, made through the use cases alone. */
@ApplicationScoped
public class Ramp {
  static final String ENGINEERS_LICENCE = "E-1";
  static final String PILOTS_LICENCE = "P-114";

  @Inject Operators operators;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject JourneyLog log;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject Defects defects;
  @Inject Rectifications rectifications;
  @Inject Deferrals deferrals;
  @Inject AbnormalEvents events;
  @Inject EventInspections inspections;
  @Inject IdentityProof identity;
  @Inject PreFlights preFlights;
  @Inject Acceptances acceptances;
  @Inject InstantSource clock;

  /** An operator whose engineer and pilot have a licence each. */
  public record Base(Company company) {
    public Viewer owner() {
      return company.viewer(Role.OWNER);
    }

    public Viewer pilot() {
      return company.viewer(Role.PILOT);
    }

    public Viewer engineer() {
      return company.viewer(Role.ENGINEER);
    }
  }

  public Base base() {
    Company company = Company.founded("ramp-" + UUID.randomUUID(), operators, members);
    licence(company, Role.ENGINEER, ENGINEERS_LICENCE, "Licensed engineer");
    licence(company, Role.PILOT, PILOTS_LICENCE, "commercial pilot licence");
    return new Base(company);
  }

  private void licence(Company company, Role role, String number, String kind) {
    members.addLicence(
        company.viewer(Role.OWNER),
        company.people().get(role),
        new Members.NewLicence(number, kind, "", "", null));
  }

  /**
   * An aircraft that began its records 90 days ago, with an inspection every 100 h that was last
   * done, by old papers, at so many hours.
   */
  public UUID aircraft(Base base, String registration, String totals, String inspectedAt) {
    UUID id = bare(base, registration, totals);
    UUID requirement =
        requirement(base, id, "100 h inspection", Rule.first(Limit.Every.of(Counter.HOURS, "100")));
    compliances.file(
        base.owner(),
        NewCompliance.transcribed(
                requirement,
                id,
                null,
                daysAgo(89),
                Usage.parse("hours=" + inspectedAt),
                "Airframe log 1")
            .asBaseline());
    return id;
  }

  /** One that nothing holds, of an operator that was made otherwise. */
  public UUID bare(Viewer owner, String typeName, String registration) {
    return fleet.register(
        owner,
        new Fleet.Registering(
            Particulars.of(registration, typeName, "S-" + registration),
            List.of(),
            daysAgo(90),
            Map.of(Counter.HOURS, 3_600_000L, Counter.LANDINGS, 500L),
            null));
  }

  /** A pilot signs both statements, with 100 on board; the id of the acceptance's signature. */
  public UUID taken(Viewer pilot, UUID aircraft, String licence) {
    acceptances.sign(pilot, aircraft, draft(pilot, aircraft, licence), Company.PASSWORD);
    return acceptances.latest(pilot, aircraft).acceptance().id();
  }

  AcceptanceDraft draft(Viewer pilot, UUID aircraft, String licence) {
    return new AcceptanceDraft(
        true,
        true,
        new BigDecimal("100"),
        new TreeMap<>(),
        "",
        licence,
        preFlights.shown(pilot, aircraft).seen(),
        UUID.randomUUID());
  }

  /** An aircraft that nothing is required of, and with no position to be filled. */
  public UUID bare(Base base, String registration, String totals) {
    return fleet.register(
        base.owner(),
        new Fleet.Registering(
            Particulars.of(registration, "Skerry 200", "S-" + registration),
            List.of(),
            daysAgo(90),
            new HashMap<>(Usage.parse(totals).toMap()),
            null));
  }

  /** A mandatory inspection of one aircraft. */
  public UUID requirement(Base base, UUID aircraft, String title, Rule rule) {
    return requirement(base, aircraft, title, RequirementKind.INSPECTION, rule);
  }

  public UUID requirement(Base base, UUID aircraft, String title, RequirementKind kind, Rule rule) {
    return requirement(base, aircraft, Terms.of(title, kind, rule, began(base)));
  }

  /** A mandatory inspection that does another one's work too. */
  UUID covering(Base base, UUID aircraft, String title, Rule rule, UUID other) {
    Terms terms = Terms.of(title, RequirementKind.INSPECTION, rule, began(base)).covering(other);
    return requirement(base, aircraft, terms);
  }

  private UUID requirement(Base base, UUID aircraft, Terms terms) {
    return requirements.create(
        base.owner(),
        NewRequirement.ofAircraft(aircraft, Subject.AIRCRAFT, terms, began(base), "The authority"));
  }

  private LocalDate began(Base base) {
    return base.owner().dateOf(daysAgo(90));
  }

  /** Work certified by the engineer, some time ago. */
  public UUID done(Base base, UUID requirement, UUID aircraft, Duration ago) {
    return compliances.file(
        base.engineer(),
        NewCompliance.certified(
            requirement,
            aircraft,
            null,
            clock.instant().minus(ago),
            Usage.NONE,
            ENGINEERS_LICENCE));
  }

  /** A defect that can fly, just found; the id of its entry. */
  public UUID reported(Base base, UUID aircraft, String words) {
    return reported(base, aircraft, words, Duration.ZERO);
  }

  private UUID reported(Base base, UUID aircraft, String words, Duration ago) {
    return defects
        .report(
            base.pilot(),
            aircraft,
            new DefectDraft(
                words,
                "33",
                "Right wing",
                null,
                null,
                Judgement.CAN_FLY,
                null,
                false,
                "",
                clock.instant().minus(ago)),
            List.of(),
            null,
            null)
        .entryId();
  }

  /** A defect that was just found, and put right by the engineer. */
  public void putRight(Base base, UUID aircraft, String words) {
    putRight(base, aircraft, words, Duration.ZERO, Duration.ZERO);
  }

  /** A defect that was found some time ago, and put right by the engineer some time ago. */
  void putRight(Base base, UUID aircraft, String words, Duration found, Duration done) {
    UUID defect = reported(base, aircraft, words, found);
    rectifications.rectify(
        base.engineer(),
        identity.prove(base.engineer(), Company.PASSWORD),
        defect,
        new CertifiedWork(
            "Lamp replaced",
            "Maintenance manual 33-41",
            ENGINEERS_LICENCE,
            clock.instant().minus(done)),
        UUID.randomUUID());
  }

  /** An abnormal event that happened some time ago, and was inspected for by the engineer now. */
  void inspectedFor(Base base, UUID aircraft, String kind, Duration ago) {
    UUID event =
        events.report(
            base.pilot(),
            aircraft,
            new AbnormalEvents.NewEvent(kind, "It happened", clock.instant().minus(ago)),
            List.of(),
            null,
            null);
    inspections.certify(
        base.engineer(),
        identity.prove(base.engineer(), Company.PASSWORD),
        event,
        new CertifiedWork("Nothing found", "Manual 5-50", ENGINEERS_LICENCE, clock.instant()),
        null);
  }

  /** A defect that can fly, deferred by the engineer; flying at night is forbidden with it. */
  public UUID deferred(Base base, UUID aircraft, String words) {
    UUID defect = reported(base, aircraft, words);
    return deferrals.defer(
        base.engineer(),
        identity.prove(base.engineer(), Company.PASSWORD),
        new NewDeferral(
            defect,
            clock.instant(),
            Role.ENGINEER,
            ENGINEERS_LICENCE,
            NewDeferral.Listed.of("33-41-01", DeferralClock.Category.C),
            null,
            new NewDeferral.Conditions(
                "Day flights only", "night", "Inoperative", "Landing light switch", "", "")),
        null);
  }

  /** A flight that landed some time ago. */
  public UUID flown(Base base, UUID aircraft, String hours, Duration ago) {
    Instant on = clock.instant().minus(ago);
    Instant off = on.minusSeconds(Hours.parse(hours).seconds());
    return log.file(
            base.pilot(), aircraft, FlightDraft.of("PM", "PM", off, on, 1, "A. Pilot"), null)
        .id();
  }

  public Instant daysAgo(int days) {
    return clock.instant().minus(Duration.ofDays(days));
  }
}
