package trestle.house;

import static java.nio.charset.StandardCharsets.UTF_8;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.apron.Ramp;
import trestle.defects.PutOff;
import trestle.fleet.Fleet;
import trestle.fleet.Groundings;
import trestle.fleet.Hangar;
import trestle.fleet.HoursBasis;
import trestle.fleet.PartClass;
import trestle.fleet.PartKind;
import trestle.fleet.PartSheet;
import trestle.fleet.Particulars;
import trestle.fleet.Parts;
import trestle.fleet.Position;
import trestle.fleet.Positions;
import trestle.fleet.Rounding;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.flights.Tanks;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.programme.ComplianceRecords;
import trestle.programme.Compliances;
import trestle.programme.DocumentFiles;
import trestle.programme.Extensions;
import trestle.programme.NewCompliance;
import trestle.programme.NewExtension;
import trestle.programme.NewRequirement;
import trestle.programme.Programmes;
import trestle.programme.RequirementKind;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.records.pack.Handed;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * Makes an invented operator with one row at least of everything that an address can name, through
 * the use cases. Every word of its rows bears its mark, so that any of them seen by somebody else
 * gives itself away.
 */
@ApplicationScoped
public class Yard {
  public static final String LICENCE = "E-77";

  /** Whoever runs a very small operator: in every role but the auditor's. */
  private static final Set<Role> ROLES =
      EnumSet.of(Role.OWNER, Role.CONTROLLER, Role.ENGINEER, Role.PILOT);

  @Inject Ramp ramp;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject Fleet fleet;
  @Inject Positions positions;
  @Inject Parts parts;
  @Inject Groundings groundings;
  @Inject JourneyLog log;
  @Inject Tanks tanks;
  @Inject Programmes programmes;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject ComplianceRecords complianceRecords;
  @Inject Extensions extensions;
  @Inject Wreck wreck;
  @Inject PutOff putOff;
  @Inject Docket docket;
  @Inject Bay bay;
  @Inject Handed handed;
  @Inject InstantSource clock;

  /** The ids of an operator's rows. */
  public record Rows(
      Company company,
      String mark,
      String registration,
      LocalDate today,
      UUID aircraft,
      UUID engine,
      UUID fitment,
      UUID spare,
      UUID part,
      UUID flight,
      UUID reading,
      UUID grounding,
      UUID programme,
      UUID programmed,
      UUID requirement,
      UUID compliance,
      UUID doing,
      UUID extension,
      UUID member,
      UUID ready,
      UUID signature,
      UUID earlierDefect,
      UUID defect,
      UUID rectification,
      UUID occurrence,
      UUID mistaken,
      UUID event,
      UUID inspection,
      String eventKind,
      String photo,
      UUID waiting,
      UUID deferral,
      UUID directive,
      UUID paragraph,
      String directiveFile,
      String paper,
      Bay.Found bay,
      Handed.Found handed) {

    public Visitor owner() {
      return company.visitor(Role.OWNER);
    }
  }

  /**
   * @param mark one word that stands in everything
   * @param registration of its one aircraft
   */
  public Rows founded(String mark, String registration) {
    Company company =
        Company.founded(
            mark + "-" + UUID.randomUUID().toString().substring(0, 8), operators, members);
    UUID person = company.people().get(Role.OWNER);
    members.setRoles(company.viewer(Role.OWNER), person, ROLES, "A small operator");
    Viewer viewer = inEveryRole(company, person);
    members.addLicence(
        viewer, person, new Members.NewLicence(LICENCE, "Licensed engineer", mark, mark, null));
    Instant began = clock.instant().minus(Duration.ofDays(100));
    LocalDate today = viewer.dateOf(clock.instant());
    UUID aircraft = aircraft(viewer, mark, registration, began);
    UUID engine = hangar.engine(viewer, mark + "-1", began, Hangar.hours(900), Hangar.hours(100));
    UUID spare = hangar.engine(viewer, mark + "-2", began, Hangar.hours(500), Hangar.hours(500));
    UUID fitment = hangar.fit(viewer, engine, aircraft, "engine", began);
    UUID flight = overlapping(viewer, mark, aircraft);
    UUID programme =
        programmes.create(
            viewer,
            new Programmes.NewProgramme(
                mark + " programme", mark, mark + " manual", viewer.dateOf(began), null));
    UUID programmed =
        requirements.create(
            viewer,
            NewRequirement.ofProgramme(
                programme, "aircraft", terms(mark + " lubrication", began), today, mark));
    UUID requirement =
        requirements.create(
            viewer,
            NewRequirement.ofAircraft(
                aircraft,
                "aircraft",
                terms(mark + " inspection", began),
                viewer.dateOf(began),
                mark));
    UUID compliance =
        compliances.file(
            viewer,
            NewCompliance.transcribed(
                    requirement, aircraft, null, began, Usage.parse("hours=6000"), mark + " log 1")
                .asBaseline());
    UUID doing =
        compliances.file(
            viewer,
            NewCompliance.transcribed(
                programmed,
                aircraft,
                null,
                clock.instant(),
                Usage.parse("hours=6001"),
                mark + " log 2"),
            List.of(DocumentFiles.prepare(mark + ".pdf", ("%PDF-1.4 " + mark).getBytes(UTF_8))));
    UUID extension =
        extensions.grant(
            viewer,
            new NewExtension(
                requirement,
                aircraft,
                null,
                today,
                List.of(0),
                Hangar.hours(6_105),
                mark,
                mark + " letter",
                "",
                null));
    UUID grounding = groundings.ground(viewer, aircraft, mark + " bird strike", null);
    UUID ready = ramp.bare(viewer, mark + " 300", another(registration));
    Wreck.Found found = wreck.of(viewer, mark, aircraft, clock.instant());
    PutOff.Found put = putOff.of(viewer, mark, aircraft, LICENCE, clock.instant());
    Docket.Found directive = docket.of(viewer, mark, mark + " 200", viewer.dateOf(began));
    return new Rows(
        company,
        mark,
        registration,
        today,
        aircraft,
        engine,
        fitment,
        spare,
        parts.state(viewer, new Parts.Stating(part(mark), null, null)),
        flight,
        tanks.readAfter(viewer, flight, mark + " oil"),
        grounding,
        programme,
        programmed,
        requirement,
        compliance,
        doing,
        extension,
        company.people().get(Role.AUDITOR),
        ready,
        ramp.taken(viewer, ready, LICENCE),
        found.earlier(),
        found.defect(),
        found.rectification(),
        found.occurrence(),
        found.mistaken(),
        found.event(),
        found.inspection(),
        found.eventKind(),
        found.photo(),
        put.waiting(),
        put.deferral(),
        directive.directive(),
        directive.paragraph(),
        directive.file(),
        complianceRecords.one(viewer, doing).papers().get(0).sha256(),
        bay.of(viewer, mark, inTheBay(registration), clock.instant()),
        handed.of(viewer, mark));
  }

  /** So many times more of what an operator gathers over the years. */
  void more(Rows rows, int times) {
    UUID person = rows.company().people().get(Role.OWNER);
    Viewer viewer = inEveryRole(rows.company(), person);
    Instant began = clock.instant().minus(Duration.ofDays(100));
    Instant now = clock.instant();
    for (int i = 0; i < times; i++) {
      String mark = rows.mark() + i;
      UUID aircraft = aircraft(viewer, mark, rows.registration() + i, began);
      hangar.engine(viewer, mark + "-3", began, Hangar.hours(900), Hangar.hours(100));
      requirements.create(
          viewer,
          NewRequirement.ofAircraft(
              rows.aircraft(), "aircraft", terms(mark, began), rows.today(), mark));
      requirements.create(
          viewer,
          NewRequirement.ofProgramme(
              rows.programme(), "aircraft", terms(mark, began), rows.today(), mark));
      Instant off = now.minus(Duration.ofDays(9)).plus(Duration.ofHours(2L * i));
      UUID flight =
          log.file(viewer, rows.aircraft(), flight(mark, off, Duration.ofHours(1)), null).id();
      tanks.readAfter(viewer, flight, mark);
      log.file(viewer, aircraft, flight(mark, off, Duration.ofHours(1)), null);
      groundings.ground(viewer, rows.aircraft(), mark, null);
      wreck.of(viewer, mark, rows.aircraft(), now);
      putOff.of(viewer, mark, rows.aircraft(), LICENCE, now);
      ramp.taken(viewer, rows.ready(), LICENCE);
      bay.more(viewer, mark, rows.bay(), now);
    }
  }

  private static PartSheet part(String mark) {
    return new PartSheet(
        null,
        null,
        mark + "-PN",
        mark + " governor",
        PartKind.OTHER,
        PartClass.COMPONENT,
        List.of(),
        List.of(),
        "",
        true,
        mark + " data");
  }

  private static String inTheBay(String registration) {
    return registration.substring(0, registration.length() - 1) + "9";
  }

  /** No longer than the one it is like. */
  private static String another(String registration) {
    return registration.substring(0, registration.length() - 1) + "0";
  }

  public static Viewer inEveryRole(Company company, UUID person) {
    Viewer owner = company.viewer(Role.OWNER);
    return new Viewer(
        person, "owner", false, company.operatorId(), company.name(), owner.zone(), true, ROLES);
  }

  /** With a meter to be compared, an engine position that stays empty, and its counters. */
  private UUID aircraft(Viewer viewer, String mark, String registration, Instant began) {
    UUID aircraft =
        hangar.register(
            viewer,
            new Particulars(
                registration,
                mark + " 200",
                mark + " Works",
                mark + "-S1",
                1999,
                HoursBasis.FLIGHT_TIMES,
                "hour meter",
                Rounding.EXACT,
                HoursStyle.TENTHS,
                "litres",
                false),
            began);
    positions.setPosition(
        viewer, aircraft, new Position("spare-bay", PartKind.ENGINE, "Spare bay", false), null);
    return aircraft;
  }

  /** Two flights of ten days ago that cannot both be right; the id of the later one. */
  private UUID overlapping(Viewer viewer, String mark, UUID aircraft) {
    Instant off =
        viewer
            .dateOf(clock.instant())
            .minusDays(10)
            .atTime(9, 0)
            .atZone(viewer.flightZone())
            .toInstant();
    log.file(viewer, aircraft, flight(mark, off, Duration.ofHours(1)), null);
    return log.file(
            viewer, aircraft, flight(mark, off.plusSeconds(1_800), Duration.ofHours(1)), null)
        .id();
  }

  private static FlightDraft flight(String mark, Instant off, Duration length) {
    return FlightDraft.of(
        mark + " Field", mark + " Isle", off, off.plus(length), 1, mark + " Quill");
  }

  private static Terms terms(String title, Instant began) {
    return Terms.of(
        title,
        RequirementKind.INSPECTION,
        Rule.first(Limit.Every.of(Counter.HOURS, "100")),
        LocalDate.ofInstant(began, java.time.ZoneOffset.UTC));
  }
}
