package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Consumer;
import trestle.people.Operators;
import trestle.server.TheClock;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * Loads the demo operator: everything through the use cases that people use, each filing recorded
 * at the time it tells, in batches of one transaction.
 */
@ApplicationScoped
class DemoLoader {
  private static final int BATCH = 60;

  @Inject Operators operators;
  @Inject CastLoad castLoad;
  @Inject FleetLoad fleetLoad;
  @Inject ProgrammeLoad programmeLoad;
  @Inject TaskLoad taskLoad;
  @Inject DirectiveLoad directiveLoad;
  @Inject FlightLoad flightLoad;
  @Inject WorkLoad workLoad;
  @Inject FluidLoad fluidLoad;
  @Inject PartLoad partLoad;
  @Inject ConfigurationLoad configurationLoad;
  @Inject DefectLoad defectLoad;
  @Inject OrderLoad orderLoad;
  @Inject Telling telling;
  @Inject TheClock clock;

  /** The operator that was loaded, its owner, and how much was told of it. */
  record Loaded(UUID operatorId, Viewer owner, int flights) {}

  /** Whether no operator was made here yet, or loaded to the end. */
  boolean nothingThere() {
    return !operators.anyBut(CastLoad.INSTALLATION, CastLoad.LOADING);
  }

  /** Gives earlier demo operators another name; what was filed there stays, and can be read. */
  void setAside(LocalDate today) {
    for (Operators.Line line : operators.all(CastLoad.INSTALLATION)) {
      if (line.demo()) {
        String name = line.name().replace(CastLoad.LOADING, ", half loaded");
        operators.rename(CastLoad.INSTALLATION, line.id(), name + ", set aside on " + today, false);
      }
    }
  }

  /**
   * @param now the end of the story
   * @param passwords what was told earlier to people who may not have been created yet
   * @param welcome told of the people before they exist, so that no password is lost if the loading
   *     is interrupted
   */
  Loaded load(Instant now, Map<String, String> passwords, Consumer<List<CastLoad.Invited>> welcome)
      throws Exception {
    SeedFile.Line operator = SeedFile.lines("operator.csv").get(0);
    ZoneId zone = ZoneId.of(operator.text("time_zone"));
    LocalDate today = now.atZone(zone).toLocalDate();
    Instant opened = today.minusDays(FlightPlan.DAYS + 1).atTime(7, 0).atZone(zone).toInstant();

    List<CastLoad.Invited> people = castLoad.invite(passwords);
    welcome.accept(people);
    castLoad.create(people, opened);
    Cast cast = clock.telling(opened, () -> castLoad.takeIn(operator, today));
    Viewer owner = cast.any(Role.OWNER);
    List<AircraftStory> stories = AircraftStory.all(operator.text("base"), today, zone);
    WorkLoad.Stage stage = stage(cast, opened, today, Totals.all(stories));
    List<Event> events = events(stories, stage, today);
    FlightPlan plan = stage.totals().get("QX-WIC").plan();
    events.addAll(orderLoad.events(stage, orderLoad.prove(cast, people, plan)));
    events.sort(Comparator.comparing(Event::recordedAt));
    tell(owner, events);
    telling.reckon(owner, stage.fleet().aircraft().values());
    operators.rename(CastLoad.INSTALLATION, cast.operatorId(), operator.text("name"), true);
    int flights = stories.stream().mapToInt(story -> story.plan().flights().size()).sum();
    return new Loaded(cast.operatorId(), owner, flights);
  }

  /** The first day: the aircraft, their parts, their programmes and directives. */
  private WorkLoad.Stage stage(
      Cast cast, Instant opened, LocalDate today, Map<String, Totals> totals) throws Exception {
    List<WorkLoad.Stage> made = new ArrayList<>();
    Viewer controller = cast.any(Role.CONTROLLER);
    LocalDate from = opened.atZone(cast.zone()).toLocalDate();
    Instant told = opened.plus(Duration.ofMinutes(30));
    Event firstDay =
        new Event.Filed(
            told,
            () -> {
              partLoad.state(controller);
              FleetLoad.Registered fleet = fleetLoad.register(controller, opened, today, totals);
              partLoad.assemble(controller, opened, today, fleet);
              partLoad.limit(controller, from);
              ProgrammeLoad.Filed programme = programmeLoad.file(controller, from, fleet);
              taskLoad.file(controller, programme);
              directiveLoad.file(controller, told, today, fleet, programme);
              return made.add(new WorkLoad.Stage(cast, opened, fleet, programme, totals));
            });
    telling.batch(controller, List.of(firstDay));
    return made.get(0);
  }

  private List<Event> events(List<AircraftStory> stories, WorkLoad.Stage stage, LocalDate today) {
    List<Event> events = new ArrayList<>();
    for (AircraftStory story : stories) {
      String registration = story.registration();
      UUID aircraft = stage.fleet().aircraft(registration);
      events.addAll(
          flightLoad.events(story, stage.totals().get(registration), aircraft, stage.cast()));
      events.addAll(workLoad.work(story, stage));
    }
    events.addAll(workLoad.extensions(stage));
    events.addAll(workLoad.rates(stage));
    events.addAll(directiveLoad.searches(stage, today));
    events.addAll(directiveLoad.later(stage));
    events.addAll(fluidLoad.events(stage));
    events.addAll(partLoad.swaps(stage));
    events.addAll(configurationLoad.events(stage));
    events.addAll(defectLoad.events(stage));
    return events;
  }

  private void tell(Viewer owner, List<Event> events) throws Exception {
    for (int i = 0; i < events.size(); i += BATCH) {
      telling.batch(owner, events.subList(i, Math.min(i + BATCH, events.size())));
    }
  }
}
