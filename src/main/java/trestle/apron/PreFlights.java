package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import trestle.defects.AbnormalEvents;
import trestle.defects.DefectBook;
import trestle.defects.DefectLine;
import trestle.defects.EventEntry;
import trestle.defects.InspectionSheet;
import trestle.defects.OpenDefects;
import trestle.defects.RectificationSheet;
import trestle.defects.Repeats;
import trestle.fleet.AircraftSheet;
import trestle.flights.FlightSheet;
import trestle.flights.Flights;
import trestle.flights.FluidState;
import trestle.flights.FuelAndOil;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.profiles.RuleProfiles;
import trestle.programme.ComplianceLine;
import trestle.programme.ComplianceRecords;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.standing.LastDone;
import trestle.standing.Standings;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Shown;
import trestle.web.Total;
import trestle.web.Viewer;
import trestle.workshop.ReleaseSheet;
import trestle.workshop.Releases;

/** What is shown before an aircraft is taken, gathered from the records. */
@ApplicationScoped
class PreFlights {
  private static final int LATELY_DAYS = 30;
  private static final int MOST_LATELY = 3;

  @Inject Standings standings;
  @Inject UsageLines usage;
  @Inject Flights flights;
  @Inject FuelAndOil fluids;
  @Inject ComplianceRecords complianceRecords;
  @Inject OpenDefects defects;
  @Inject DefectBook defectBook;
  @Inject AbnormalEvents events;
  @Inject Repeats repeats;
  @Inject Releases releases;
  @Inject CheckLists checkLists;
  @Inject RuleProfiles profiles;
  @Inject InstantSource clock;

  /**
   * For a page.
   *
   * @throws NotHere when the operator has no such aircraft
   */
  @Reading
  public PreFlight shown(Viewer viewer, UUID aircraftId) {
    LocalDate today = today(viewer);
    return of(viewer, standings.now(viewer, List.of(aircraftId), today).get(aircraftId), today);
  }

  /** For a filing, which has locked the aircraft: nothing of it may be kept for others to see. */
  @Reading
  public PreFlight locked(Viewer viewer, UUID aircraftId) {
    LocalDate today = today(viewer);
    View view = View.asAt(today);
    return of(viewer, standings.asAt(viewer, List.of(aircraftId), view).get(aircraftId), today);
  }

  private PreFlight of(Viewer viewer, AircraftStanding standing, LocalDate today) {
    if (standing == null) {
      throw new NotHere("There is no such aircraft here.");
    }
    AircraftSheet sheet = standing.sheet();
    View view = View.asAt(today);
    UsageLine line = usage.of(viewer, sheet.id(), view);
    List<LastWork> rectified = rectified(viewer, sheet.id());
    LastWork release = lastRelease(viewer, sheet.id(), view);
    LastWork work =
        later(
            later(
                lastWork(viewer, standing, item -> true),
                rectified.isEmpty() ? null : rectified.get(0)),
            later(release, lastInspected(viewer, sheet.id())));
    boolean flownSince =
        work == null || line.lastLanding().map(landing -> landing.isAfter(work.at())).orElse(false);
    return new PreFlight(
        sheet,
        today,
        standing.standing(),
        hoursTo(viewer, line),
        have(viewer, standing, today),
        DueNotes.next(standing),
        openDefects(viewer, sheet.id(), view),
        lastWork(viewer, standing, Inspections.whole(standing.items())::contains),
        release,
        work,
        rectified.stream()
            .filter(one -> !viewer.dateOf(one.at()).isBefore(today.minusDays(LATELY_DAYS)))
            .limit(MOST_LATELY)
            .toList(),
        flownSince
            ? null
            : checkLists.of(viewer, CheckListSheet.Kind.AFTER_MAINTENANCE, sheet.typeName()),
        profiles.of(viewer, sheet.id(), view));
  }

  private List<OpenDefect> openDefects(Viewer viewer, UUID aircraftId, View view) {
    List<DefectLine> open =
        defects.of(viewer, List.of(aircraftId), view).getOrDefault(aircraftId, List.of());
    Map<UUID, Integer> earlier =
        repeats.confirmed(viewer, open.stream().map(DefectLine::entryId).toList());
    return open.stream().map(line -> openDefect(line, earlier.get(line.entryId()))).toList();
  }

  private static OpenDefect openDefect(DefectLine line, Integer earlier) {
    return new OpenDefect(
        line.no(),
        line.words(),
        line.stateWords(),
        OpenDefect.repeated(earlier),
        line.limitation(),
        line.placard().isEmpty() ? "" : "Placard: " + line.placard(),
        line.untilWords().isEmpty() ? "" : "Until " + line.untilWords(),
        line.link());
  }

  /** What the workshop certified last. */
  private LastWork lastRelease(Viewer viewer, UUID aircraftId, View view) {
    return releases.last(viewer, aircraftId, view).map(PreFlights::released).orElse(null);
  }

  private static LastWork released(Releases.Last last) {
    ReleaseSheet release = last.release();
    return new LastWork(
        last.order().no() + ", " + last.order().title(),
        release.at(),
        (release.airworthy() ? "released on " : "not airworthy on ") + Shown.date(release.on()),
        release.by(),
        "/work-orders/" + last.order().id());
  }

  private static LastWork later(LastWork one, LastWork other) {
    if (one == null || other == null) {
      return one == null ? other : one;
    }
    return other.at().isAfter(one.at()) ? other : one;
  }

  /** What was put right lately, the latest first. */
  private List<LastWork> rectified(Viewer viewer, UUID aircraftId) {
    return defectBook.lastRectified(viewer, aircraftId, MOST_LATELY).stream()
        .filter(entry -> !entry.isOpen() && entry.rectification() != null)
        .map(PreFlights::rectified)
        .sorted(Comparator.comparing(LastWork::at).reversed())
        .toList();
  }

  private static LastWork rectified(DefectBook.Entry entry) {
    RectificationSheet done = entry.rectification();
    return new LastWork(
        "Defect " + entry.current().no() + ", " + entry.current().defect().words(),
        done.at(),
        "put right on " + Shown.date(done.on()),
        done.licenceNumber().isBlank()
            ? done.marked()
            : "signed under licence " + done.licenceNumber(),
        entry.current().link());
  }

  /** The inspection of an abnormal event that was certified last. */
  private LastWork lastInspected(Viewer viewer, UUID aircraftId) {
    return events.lastInspected(viewer, aircraftId).map(PreFlights::inspected).orElse(null);
  }

  private static LastWork inspected(EventEntry entry) {
    InspectionSheet done = entry.inspection();
    return new LastWork(
        "Event " + entry.current().no() + ", " + entry.current().kindName(),
        done.at(),
        "inspected on " + Shown.date(done.on()),
        "signed under licence " + done.licenceNumber(),
        entry.current().link());
  }

  /** The latest doing of the items asked for; where counting starts is no work. */
  LastWork lastWork(Viewer viewer, AircraftStanding standing, Predicate<DueItem> asked) {
    Optional<DueItem> latest =
        standing.items().stream()
            .filter(asked)
            .filter(item -> item.lastDone() != null && !item.lastDone().baseline())
            .max(
                Comparator.comparing((DueItem item) -> item.lastDone().at())
                    .thenComparing(DueItem::title));
    if (latest.isEmpty()) {
      return null;
    }
    LastDone done = latest.get().lastDone();
    ComplianceLine record = complianceRecords.one(viewer, done.complianceId());
    return new LastWork(
        done.coveredBy() == null ? latest.get().title() : done.coveredBy(),
        done.at(),
        when(done, new InWords(standing.sheet().shownAs())),
        by(record),
        "/compliances/" + done.complianceId());
  }

  private static String when(LastDone done, InWords words) {
    String on = Shown.date(done.reading().on());
    return done.reading()
        .usage()
        .total(Counter.HOURS)
        .map(hours -> on + " at " + words.used(hours))
        .orElse(on);
  }

  private static String by(ComplianceLine record) {
    if (record.isTranscribed()) {
      return "copied from " + record.transcribedFrom();
    }
    return "certified by "
        + record.certifiedBy()
        + (record.licenceNumber().isBlank() ? "" : ", licence " + record.licenceNumber());
  }

  private List<Total> have(Viewer viewer, AircraftStanding standing, LocalDate today) {
    List<Total> have = new ArrayList<>();
    soonest(standing, Lefts::seconds).ifPresent(item -> have.add(byHours(standing, item)));
    soonest(standing, Lefts::days).ifPresent(item -> have.add(byDate(item, today)));
    FluidState left = fluids.state(viewer, standing.sheet().id(), View.asAt(today));
    if (left.total() != null) {
      have.add(fuel(viewer, left));
    } else {
      flights
          .last(viewer, standing.sheet().id())
          .filter(last -> last.flight().fuelLeft() != null)
          .ifPresent(last -> have.add(fuel(viewer, standing, last)));
    }
    left.engines().stream()
        .filter(engine -> engine.amount() != null)
        .forEach(engine -> have.add(oil(viewer, engine)));
    return have;
  }

  /** Of what binds, the one with the least left. */
  private static Optional<DueItem> soonest(
      AircraftStanding standing, Function<DueItem, Long> left) {
    return standing.items().stream()
        .filter(DueItem::isMandatory)
        .filter(item -> left.apply(item) != null)
        .min(Comparator.comparing(left).thenComparing(DueItem::title));
  }

  private static Total byHours(AircraftStanding standing, DueItem item) {
    long left = Lefts.seconds(item);
    HoursStyle style = standing.sheet().shownAs();
    return left < 0
        ? new Total("Past due", Shown.used(new Hours(-left), style) + " h", item.title())
        : new Total(
            "Until the next by hours", Shown.left(new Hours(left), style) + " h", item.title());
  }

  private static Total byDate(DueItem item, LocalDate today) {
    long days = Lefts.days(item);
    return new Total(
        days < 0 ? "Past due" : "Until the next by date",
        Shown.days(Math.abs(days)),
        item.title() + ", " + Shown.day(today.plusDays(days), today));
  }

  /** Of all tanks, each named where there are several. */
  private static Total fuel(Viewer viewer, FluidState left) {
    String each =
        left.tanks().stream()
            .map(tank -> tank.label() + " " + Shown.quantity(tank.amount()))
            .collect(Collectors.joining(", "));
    Instant oldest =
        left.tanks().stream().map(FluidState.Left::at).min(Comparator.naturalOrder()).orElseThrow();
    return new Total(
        PreFlight.FUEL,
        Shown.quantity(left.total()) + " " + left.unit(),
        (left.tanks().size() > 1 ? each + "; " : "") + Shown.moment(oldest, viewer.flightZone()));
  }

  private static Total fuel(Viewer viewer, AircraftStanding standing, FlightSheet last) {
    return new Total(
        PreFlight.FUEL,
        Shown.quantity(last.flight().fuelLeft()) + " " + standing.sheet().particulars().fuelUnit(),
        Shown.moment(last.flight().landing(), viewer.flightZone()));
  }

  private static Total oil(Viewer viewer, FluidState.Left engine) {
    return new Total(
        "Oil as left, " + engine.label(),
        Shown.quantity(engine.amount()) + " " + engine.unit(),
        Shown.moment(engine.at(), viewer.flightZone()));
  }

  /** How old the hours are. */
  static String hoursTo(Viewer viewer, UsageLine line) {
    Optional<Instant> landing = line.lastLanding();
    if (landing.isEmpty()) {
      return "No flight is recorded yet";
    }
    String filed =
        line.lastFiledAt().map(at -> ", filed " + Shown.moment(at, viewer.zone())).orElse("");
    return "Hours to the landing of " + Shown.moment(landing.get(), viewer.flightZone()) + filed;
  }

  private LocalDate today(Viewer viewer) {
    return viewer.dateOf(clock.instant());
  }
}
