package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.defects.DefectLine;
import trestle.defects.OpenDefects;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.flights.Breaks;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.Scale;
import trestle.reckoning.State;
import trestle.standing.AircraftStanding;
import trestle.standing.DueItem;
import trestle.standing.Ground;
import trestle.standing.InWords;
import trestle.standing.Standings;
import trestle.web.Reading;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * What waits for an engineer in one operator. The list over all of a person's operators is one such
 * reading each, behind that operator's walls; each takes a constant number of statements.
 */
@ApplicationScoped
public class EngineerList {
  @Inject Fleet fleet;
  @Inject Standings standings;
  @Inject OpenDefects defects;
  @Inject Breaks breaks;
  @Inject OrderBook book;
  @Inject WorkshopGrounds grounds;

  /**
   * How near is near.
   *
   * @param hours left of what is by hours
   * @param days left of what is by the calendar, and of a deferral
   */
  public record Within(int hours, int days) {}

  /** One thing that waits, about one aircraft. */
  public record Waiting(String registration, String words, String link) {}

  /** One operator's part; each list in the order of registrations. */
  public record Place(
      UUID operatorId,
      String operator,
      List<Waiting> untriaged,
      List<Waiting> deferrals,
      List<Waiting> due,
      List<Waiting> orders,
      List<Waiting> disputed) {

    public boolean isEmpty() {
      return untriaged.isEmpty()
          && deferrals.isEmpty()
          && due.isEmpty()
          && orders.isEmpty()
          && disputed.isEmpty();
    }
  }

  @Reading
  public Place of(Viewer viewer, LocalDate today, Within within) {
    List<AircraftSheet> all = fleet.sheets(viewer, View.asAt(today));
    List<UUID> ids = all.stream().map(AircraftSheet::id).toList();
    Map<UUID, List<DefectLine>> open = defects.of(viewer, ids, View.asAt(today));
    Map<UUID, AircraftStanding> standing = standings.now(viewer, ids, today);
    Map<UUID, List<WorkOrderSheet>> orders = book.open(viewer);
    Map<UUID, List<Breaks.Line>> disputed = breaks.of(viewer, ids, View.asAt(today));
    Map<UUID, List<Ground>> uncleared = grounds.uncleared(viewer, ids, View.asAt(today));
    Place place = empty(viewer);
    for (AircraftSheet one : all) {
      UUID id = one.id();
      defects(place, one, open.getOrDefault(id, List.of()), today.plusDays(within.days()));
      if (standing.containsKey(id)) {
        due(place, one, standing.get(id).items(), within);
      }
      for (WorkOrderSheet order : orders.getOrDefault(id, List.of())) {
        order(place, one, order, viewer.personId());
      }
      disputed(place, one, disputed.getOrDefault(id, List.of()));
      for (Ground ground : uncleared.getOrDefault(id, List.of())) {
        place.disputed().add(new Waiting(one.registration(), ground.sentence(), ground.link()));
      }
    }
    return place;
  }

  private static Place empty(Viewer viewer) {
    return new Place(
        viewer.operatorId(),
        viewer.operatorName(),
        new ArrayList<>(),
        new ArrayList<>(),
        new ArrayList<>(),
        new ArrayList<>(),
        new ArrayList<>());
  }

  private static void defects(
      Place place, AircraftSheet aircraft, Collection<DefectLine> lines, LocalDate until) {
    for (DefectLine line : lines) {
      Waiting waiting =
          new Waiting(
              aircraft.registration(),
              line.no()
                  + ": "
                  + line.words()
                  + (line.lastDay() == null ? "" : ", until " + Shown.date(line.lastDay())),
              line.link());
      if (line.state().equals("reported")) {
        place.untriaged().add(waiting);
      } else if (line.lastDay() != null && !line.lastDay().isAfter(until)) {
        place.deferrals().add(waiting);
      }
    }
  }

  private static void due(Place place, AircraftSheet aircraft, List<DueItem> items, Within within) {
    InWords words = new InWords(aircraft.shownAs());
    for (DueItem item : items) {
      LimitReckoning limit = item.controlling();
      if (limit == null || item.state() == State.DONE || !isNear(item, limit, within)) {
        continue;
      }
      String left = limit.remaining() == Scale.UNKNOWN ? "not known" : words.left(limit) + " left";
      place
          .due()
          .add(
              new Waiting(
                  aircraft.registration(),
                  item.title() + ": " + left + ", due " + words.due(limit),
                  item.link()));
    }
  }

  private static boolean isNear(DueItem item, LimitReckoning limit, Within within) {
    if (item.reckoning().spent() || limit.remaining() < 0 && limit.remaining() != Scale.UNKNOWN) {
      return true;
    }
    if (limit.remaining() == Scale.UNKNOWN) {
      return false;
    }
    if (limit.isByCalendar()) {
      return limit.remaining() <= within.days();
    }
    return Counter.HOURS.equals(limit.counter()) && limit.remaining() <= within.hours() * 3_600L;
  }

  private static void order(
      Place place, AircraftSheet aircraft, WorkOrderSheet order, UUID person) {
    long open = order.open().size();
    long look =
        order.awaitingInspection().stream()
            .filter(line -> !line.work().workedBy().equals(person))
            .count();
    List<String> words = new ArrayList<>();
    if (order.awaitsApproval()) {
      words.add("waits for the owner’s approval");
    } else if (order.state() == OrderState.AWAITING_RELEASE) {
      words.add("waits for its release");
    } else if (open > 0) {
      words.add(Shown.plural(open, "line") + " open");
    }
    if (look > 0) {
      words.add(Shown.plural(look, "line") + " waiting for your inspection, as a second person");
    }
    if (!words.isEmpty()) {
      place
          .orders()
          .add(
              new Waiting(
                  aircraft.registration(),
                  order.order().no()
                      + ", "
                      + order.order().title()
                      + ": "
                      + String.join("; ", words),
                  order.order().link()));
    }
  }

  private static void disputed(Place place, AircraftSheet aircraft, List<Breaks.Line> lines) {
    long open = lines.stream().filter(Breaks.Line::isOpen).count();
    if (open > 0) {
      place
          .disputed()
          .add(
              new Waiting(
                  aircraft.registration(),
                  Shown.plural(open, "place") + " where flights do not follow on from one another",
                  "/aircraft/" + aircraft.id() + "/breaks"));
    }
  }
}
