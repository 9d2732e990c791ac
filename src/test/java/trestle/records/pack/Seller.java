package trestle.records.pack;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.UUID;
import trestle.directives.Assessments;
import trestle.directives.Directives;
import trestle.directives.NewAssessment;
import trestle.directives.ParagraphSheet;
import trestle.directives.Verdict;
import trestle.fleet.Components;
import trestle.fleet.Configurations;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.house.Yard;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.programme.Compliances;
import trestle.programme.NewCompliance;
import trestle.programme.NewRequirement;
import trestle.programme.Programmes;
import trestle.programme.RequirementKind;
import trestle.programme.RequirementRecords;
import trestle.programme.Requirements;
import trestle.programme.Terms;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * An operator with one aircraft that has a bit of everything, and a magneto that came from another.
 */
@ApplicationScoped
class Seller {
  @Inject Yard yard;
  @Inject Hangar hangar;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject JourneyLog log;
  @Inject Programmes programmes;
  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject Compliances compliances;
  @Inject Directives directives;
  @Inject Assessments assessments;
  @Inject Configurations configurations;
  @Inject InstantSource clock;

  record Sold(
      Company company,
      Viewer viewer,
      String mark,
      String registration,
      UUID aircraft,
      UUID engine,
      String engineSerial,
      UUID magneto,
      UUID other,
      UUID second,
      String inspection,
      String directive,
      String modification,
      String modificationForm,
      Yard.Rows rows) {}

  private Sold sold;

  /** The one that all tests share: nobody changes anything of it. */
  synchronized Sold sold() {
    if (sold == null) {
      sold = founded("seller");
    }
    return sold;
  }

  /** One of its own for a test that changes it. */
  Sold another(String mark) {
    return founded(mark);
  }

  UUID flown(Viewer viewer, UUID aircraft, Instant off) {
    return fly(viewer, aircraft, off, 60);
  }

  private Sold founded(String mark) {
    Yard.Rows rows = yard.founded(mark, "QX-PK1");
    Viewer viewer = Yard.inEveryRole(rows.company(), rows.company().people().get(Role.OWNER));
    Instant began = clock.instant().minus(Duration.ofDays(100));
    UUID other = hangar.single(viewer, "QX-PK7", began);
    hangar.fit(viewer, rows.spare(), other, "engine", began);
    UUID magneto = hangar.magneto(viewer, "MG-4310", mark + "-M1", began);
    UUID there = hangar.put(viewer, magneto, rows.spare(), "left magneto", began.plusSeconds(60));
    fly(viewer, other, began.plus(Duration.ofDays(5)), 90);
    fly(viewer, other, began.plus(Duration.ofDays(6)), 75);
    Instant moved = began.plus(Duration.ofDays(20));
    hangar.remove(viewer, there, moved);
    fly(viewer, other, began.plus(Duration.ofDays(25)), 45);
    hangar.put(viewer, magneto, rows.engine(), "left magneto", moved.plusSeconds(3_600));
    Instant flown = began.plus(Duration.ofDays(30));
    UUID wrong = fly(viewer, rows.aircraft(), flown, 50);
    log.correct(viewer, wrong, draft(flown, 55), "Five minutes more", null);
    limits(viewer, rows, began);
    assessed(viewer, rows, began);
    UUID second = hangar.single(viewer, "QX-PK8", began);
    fly(viewer, second, began.plus(Duration.ofDays(8)), 60);
    programmes.adopt(viewer, second, rows.programme(), viewer.dateOf(began), "Taken up", null);
    modified(viewer, rows, began);
    return new Sold(
        rows.company(),
        viewer,
        mark,
        rows.registration(),
        rows.aircraft(),
        rows.engine(),
        mark + "-1",
        magneto,
        other,
        second,
        mark + " inspection",
        mark + "-B1",
        "STC-77",
        "Form 337-" + mark,
        rows);
  }

  /**
   * A life limit of the part number, an inspection of the magneto, a programme that is followed.
   */
  private void limits(Viewer viewer, Yard.Rows rows, Instant began) {
    requirements.create(
        viewer,
        NewRequirement.ofPart(
            "TARN-360",
            Terms.of(
                "Engine life",
                RequirementKind.LIFE_LIMIT,
                Rule.first(Limit.Fixed.at(Counter.HOURS, "2400")).onlyOnce(),
                viewer.dateOf(began)),
            viewer.dateOf(began),
            "Board"));
    UUID every =
        requirements.create(
            viewer,
            NewRequirement.ofAircraft(
                rows.aircraft(),
                "aircraft",
                Terms.of(
                    "Annual inspection",
                    RequirementKind.INSPECTION,
                    Rule.first(
                        Limit.Every.of(Interval.ofMonths(12)),
                        Limit.Every.of(Counter.HOURS, "100")),
                    viewer.dateOf(began)),
                viewer.dateOf(began),
                "Board"));
    compliances.file(
        viewer,
        NewCompliance.transcribed(
            every,
            rows.aircraft(),
            null,
            began.plus(Duration.ofDays(31)),
            Usage.parse("hours=6000.9"),
            "old log, page 12"));
    programmes.adopt(
        viewer, rows.aircraft(), rows.programme(), viewer.dateOf(began), "Taken up", null);
  }

  private void assessed(Viewer viewer, Yard.Rows rows, Instant began) {
    ParagraphSheet paragraph = directives.paragraph(viewer, rows.paragraph());
    assessments.assess(
        viewer,
        NewAssessment.ofAircraft(
            paragraph, rows.aircraft(), Verdict.APPLIES, "", began.plus(Duration.ofDays(2))));
    UUID opened =
        requirementRecords.ofAircraft(viewer, rows.aircraft(), View.EVERYTHING).stream()
            .filter(one -> one.latest().terms().kind().isOfDirectives())
            .findFirst()
            .orElseThrow()
            .requirement()
            .id();
    compliances.file(
        viewer,
        NewCompliance.transcribed(
            opened,
            rows.aircraft(),
            null,
            began.plus(Duration.ofDays(32)),
            Usage.parse("hours=6000.9"),
            "old log, page 13"));
  }

  private void modified(Viewer viewer, Yard.Rows rows, Instant began) {
    configurations.state(
        viewer,
        rows.aircraft(),
        new Configurations.NewModification(
            null,
            "STC-77",
            "Long range tanks",
            false,
            true,
            "Approval 77",
            "Form 337-" + rows.mark(),
            "",
            "",
            true,
            began.plus(Duration.ofDays(3)),
            null,
            null));
    configurations.weigh(
        viewer,
        rows.aircraft(),
        new Configurations.NewWeight(
            true,
            "Weighed",
            new BigDecimal("702.5"),
            new BigDecimal("-12.25"),
            "kg",
            "cm",
            "Sheet 3",
            began.plus(Duration.ofDays(4)),
            null,
            false,
            null,
            null));
  }

  private UUID fly(Viewer viewer, UUID aircraft, Instant off, int minutes) {
    return log.file(viewer, aircraft, draft(off, minutes), null).id();
  }

  private static FlightDraft draft(Instant off, int minutes) {
    return FlightDraft.of(
        "Port Maddern", "Port Maddern", off, off.plus(Duration.ofMinutes(minutes)), 2, "I. Tarn");
  }
}
