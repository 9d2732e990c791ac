package trestle.flights;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.fleet.AircraftSheet;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentSheet;
import trestle.fleet.ComponentState;
import trestle.fleet.Components;
import trestle.fleet.CounterWords;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.PartSheet;
import trestle.fleet.Parts;
import trestle.fleet.Placement;
import trestle.fleet.Views;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Scale;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Option;
import trestle.web.Pager;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Components, what they have run, and where they were. */
@Path("/components")
@RequestScoped
public class ComponentPages {
  private static final int PAGE = 50;
  private static final List<Option> OPTIONS =
      Stream.of(ComponentState.values())
          .map(state -> new Option(state.name(), state.words()))
          .toList();
  private static final List<String> STATES = OPTIONS.stream().map(Option::value).toList();

  @Inject Components components;
  @Inject Parts parts;
  @Inject ComponentLines lines;
  @Inject Fleet fleet;
  @Inject Views views;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentList(
      List<Line> lines, Pager pager, AsAt at, List<Option> states, boolean mayRegister)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentPage(
      ComponentSheet component,
      String place,
      UUID aircraftId,
      String state,
      boolean placed,
      List<Run> runs,
      List<Inner> inside,
      List<ComponentStory.Event> events,
      UUID part,
      AsAt at,
      boolean mayWork,
      boolean mayHandOver)
      implements TemplateInstance {}

  /** A component in the list. */
  public record Line(
      ComponentSheet sheet,
      String place,
      UUID aircraftId,
      String state,
      String sinceNew,
      String sinceOverhaul) {}

  /** What sits in it, and where. */
  public record Inner(UUID id, String words, String place) {}

  /** One counter of a component, in words. */
  public record Run(String name, String sinceNew, String sinceOverhaul, String sinceFitted) {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all(@QueryParam("page") Integer page, @Context UriInfo uri) {
    AsAt at = at(uri);
    String state = at.form().optional("state", "State").choice(STATES);
    String sought = at.form().value("sought").strip();
    Pager pager;
    List<ComponentSheet> shown;
    if (state == null) {
      pager = Pager.of(page, PAGE, components.count(viewer, sought, at.view()), uri);
      shown = components.sought(viewer, sought, pager.offset(), PAGE, at.view());
    } else {
      List<ComponentSheet> sheets = in(state, sought, at.view());
      pager = Pager.of(page, PAGE, sheets.size(), uri);
      shown = sheets.subList(pager.offset(), Math.min(sheets.size(), pager.offset() + PAGE));
    }
    List<UUID> ids = shown.stream().map(ComponentSheet::id).toList();
    Map<UUID, ComponentLine> used = lines.of(viewer, ids, at.view());
    Map<UUID, AircraftSheet> aircraft = aircraft(at.view());
    return Answers.page(
        at.status(),
        new ComponentList(
            shown.stream().map(sheet -> line(used.get(sheet.id()), aircraft)).toList(),
            pager,
            at,
            OPTIONS,
            viewer.isAny(Role.OWNER, Role.CONTROLLER)));
  }

  /** A state is derived: whoever asks for one has all looked at that have the words. */
  private List<ComponentSheet> in(String state, String sought, View view) {
    List<ComponentSheet> found = components.sought(viewer, sought, 0, Integer.MAX_VALUE, view);
    Map<UUID, ComponentHistory> histories =
        components.histories(viewer, found.stream().map(ComponentSheet::id).toList(), view);
    return found.stream()
        .filter(sheet -> histories.get(sheet.id()).state().name().equals(state))
        .toList();
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @Context UriInfo uri) {
    AsAt at = at(uri);
    ComponentLine line = lines.of(viewer, id, at.view());
    ComponentHistory history = line.history();
    Map<UUID, AircraftSheet> aircraft = aircraft(at.view());
    Fitting fitted = history.fitted();
    List<Placement> inside = components.inside(viewer, id, at.view());
    Map<UUID, ComponentSheet> others = others(history, inside, at.view());
    ComponentStory story = new ComponentStory(line, aircraft, others, viewer.flightZone());
    return Answers.page(
        at.status(),
        new ComponentPage(
            history.sheet(),
            story.place(),
            fitted == null ? null : fitted.aircraftId(),
            history.state().words(),
            history.placed() != null,
            runs(line, style(fitted, aircraft)),
            inner(inside, others),
            story.events(inside),
            parts
                .of(viewer, history.sheet().partNumber(), View.EVERYTHING)
                .map(PartSheet::id)
                .orElse(null),
            at,
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER),
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.AUDITOR)));
  }

  /** The other components that its page names. */
  private Map<UUID, ComponentSheet> others(
      ComponentHistory history, List<Placement> inside, View view) {
    Set<UUID> ids = new HashSet<>();
    inside.forEach(each -> ids.add(each.componentId()));
    history.placements().stream()
        .filter(Placement::isInComponent)
        .forEach(each -> ids.add(each.assemblyId()));
    return components.sheets(viewer, ids, View.EVERYTHING);
  }

  private static List<Inner> inner(List<Placement> inside, Map<UUID, ComponentSheet> others) {
    return inside.stream()
        .filter(Placement::isOpen)
        .map(
            each ->
                new Inner(each.componentId(), others.get(each.componentId()).words(), each.place()))
        .sorted(Comparator.comparing(Inner::place))
        .toList();
  }

  private Line line(ComponentLine line, Map<UUID, AircraftSheet> aircraft) {
    Fitting fitted = line.history().fitted();
    HoursStyle style = style(fitted, aircraft);
    return new Line(
        line.history().sheet(),
        fitted == null ? "" : ComponentStory.place(fitted, aircraft),
        fitted == null ? null : fitted.aircraftId(),
        line.history().state().words(),
        words(Counter.HOURS, line.sinceNew(Counter.HOURS), style),
        words(Counter.HOURS, line.sinceOverhaul(Counter.HOURS), style));
  }

  private static List<Run> runs(ComponentLine line, HoursStyle style) {
    List<Run> runs = new ArrayList<>();
    line.counters().stream()
        .sorted(Comparator.reverseOrder())
        .forEach(
            counter ->
                runs.add(
                    new Run(
                        CounterWords.of(counter)
                            + (line.isEstimated(counter) ? " (estimated)" : ""),
                        words(counter, line.sinceNew(counter), style),
                        words(counter, line.sinceOverhaul(counter), style),
                        words(counter, line.sinceFitted(counter), style))));
    return runs;
  }

  private static HoursStyle style(Fitting fitted, Map<UUID, AircraftSheet> aircraft) {
    AircraftSheet sheet = fitted == null ? null : aircraft.get(fitted.aircraftId());
    return sheet == null ? HoursStyle.TENTHS : sheet.shownAs();
  }

  private static String words(Counter counter, long units, HoursStyle style) {
    if (units == Scale.UNKNOWN) {
      return "not known";
    }
    return counter.inHours() ? Shown.used(new Hours(units), style) + " h" : Shown.count(units);
  }

  private Map<UUID, AircraftSheet> aircraft(View view) {
    Map<UUID, AircraftSheet> aircraft = new HashMap<>();
    fleet.sheets(viewer, view).forEach(sheet -> aircraft.put(sheet.id(), sheet));
    return aircraft;
  }

  private AsAt at(UriInfo uri) {
    return views.asked(viewer, uri.getQueryParameters());
  }
}
