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
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.CounterWords;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Scale;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Pager;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Components, what they have run, and where they were. */
@Path("/components")
@RequestScoped
public class ComponentPages {
  private static final int PAGE = 50;

  @Inject Components components;
  @Inject ComponentLines lines;
  @Inject Fleet fleet;
  @Inject Views views;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentList(List<Line> lines, Pager pager, AsAt at, boolean mayRegister)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentPage(
      ComponentSheet component,
      String place,
      UUID aircraftId,
      boolean fitted,
      List<Run> runs,
      List<Event> events,
      AsAt at,
      boolean mayWork)
      implements TemplateInstance {}

  /** A component in the list. */
  public record Line(
      ComponentSheet sheet, String place, UUID aircraftId, String sinceNew, String sinceOverhaul) {}

  /** One counter of a component, in words. */
  public record Run(String name, String sinceNew, String sinceOverhaul, String sinceFitted) {}

  /** Something that happened to it; {@code record} is what may be corrected, or null. */
  public record Event(Instant moment, String at, String what, UUID record) {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all(@QueryParam("page") Integer page, @Context UriInfo uri) {
    AsAt at = at(uri);
    List<ComponentSheet> sheets = components.sheets(viewer, at.view());
    Pager pager = Pager.of(page, PAGE, sheets.size(), uri);
    List<ComponentSheet> shown =
        sheets.subList(pager.offset(), Math.min(sheets.size(), pager.offset() + PAGE));
    List<UUID> ids = shown.stream().map(ComponentSheet::id).toList();
    Map<UUID, ComponentLine> used = lines.of(viewer, ids, at.view());
    Map<UUID, AircraftSheet> aircraft = aircraft(at.view());
    return Answers.page(
        at.form().isBad() ? 422 : 200,
        new ComponentList(
            shown.stream().map(sheet -> line(used.get(sheet.id()), aircraft)).toList(),
            pager,
            at,
            viewer.isAny(Role.OWNER, Role.CONTROLLER)));
  }

  @GET
  @Path("{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @Context UriInfo uri) {
    AsAt at = at(uri);
    ComponentLine line = lines.of(viewer, id, at.view());
    Map<UUID, AircraftSheet> aircraft = aircraft(at.view());
    Fitting fitted = line.history().fitted();
    return Answers.page(
        at.form().isBad() ? 422 : 200,
        new ComponentPage(
            line.history().sheet(),
            place(fitted, aircraft),
            fitted == null ? null : fitted.aircraftId(),
            fitted != null,
            runs(line, style(fitted, aircraft)),
            events(line.history(), aircraft),
            at,
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)));
  }

  private Line line(ComponentLine line, Map<UUID, AircraftSheet> aircraft) {
    Fitting fitted = line.history().fitted();
    HoursStyle style = style(fitted, aircraft);
    return new Line(
        line.history().sheet(),
        place(fitted, aircraft),
        fitted == null ? null : fitted.aircraftId(),
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
                        CounterWords.of(counter),
                        words(counter, line.sinceNew(counter), style),
                        words(counter, line.sinceOverhaul(counter), style),
                        words(counter, line.sinceFitted(counter), style))));
    return runs;
  }

  private List<Event> events(ComponentHistory history, Map<UUID, AircraftSheet> aircraft) {
    List<Event> events = new ArrayList<>();
    for (ComponentHistory.Opening opening : history.openings()) {
      events.add(event(opening.at(), begins(opening), null));
    }
    for (ComponentHistory.Overhaul overhaul : history.overhauls()) {
      events.add(event(overhaul.at(), "Overhauled: " + overhaul.reference(), overhaul.id()));
    }
    for (Fitting fitting : history.fittings()) {
      String place = place(fitting, aircraft);
      events.add(event(fitting.from(), "Fitted to " + place, fitting.fitmentId()));
      if (fitting.to() != null) {
        events.add(event(fitting.to(), "Removed from " + place, fitting.removalId()));
      }
    }
    events.sort(Comparator.comparing(Event::moment).reversed());
    return events;
  }

  private static String begins(ComponentHistory.Opening opening) {
    return CounterWords.of(opening.counter())
        + " when these records began: since new "
        + exact(opening.counter(), opening.sinceNew())
        + ", since overhaul "
        + exact(opening.counter(), opening.sinceOverhaul());
  }

  private Event event(Instant moment, String what, UUID record) {
    return new Event(moment, Shown.moment(moment, viewer.flightZone()), what, record);
  }

  private static String place(Fitting fitting, Map<UUID, AircraftSheet> aircraft) {
    if (fitting == null) {
      return "not fitted";
    }
    AircraftSheet sheet = aircraft.get(fitting.aircraftId());
    String mark = sheet == null ? "another aircraft" : sheet.registration();
    return mark + ", " + fitting.positionLabel();
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

  private static String exact(Counter counter, Long units) {
    if (units == null) {
      return "not known";
    }
    return counter.inHours() ? Shown.exact(new Hours(units)) + " h" : Shown.count(units);
  }

  private Map<UUID, AircraftSheet> aircraft(View view) {
    Map<UUID, AircraftSheet> aircraft = new HashMap<>();
    fleet.sheets(viewer, view).forEach(sheet -> aircraft.put(sheet.id(), sheet));
    return aircraft;
  }

  private AsAt at(UriInfo uri) {
    LocalDate today = viewer.dateOf(clock.instant());
    return AsAt.of(uri.getQueryParameters(), today, day -> views.knownOn(viewer, day));
  }
}
