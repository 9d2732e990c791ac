package trestle.flights;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.Views;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Pager;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** The journey log: logging a flight, and reading the log. */
@Path("/")
@RequestScoped
public class FlightPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject JourneyLog log;
  @Inject Flights flights;
  @Inject FlightForms forms;
  @Inject UsageLines lines;
  @Inject Views views;
  @Inject FiledWithFlights filedWith;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record FlightNew(
      AircraftSheet aircraft,
      FlightForm f,
      Form form,
      String before,
      FlightHints hints,
      String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record JourneyLogPage(
      AircraftSheet aircraft,
      AsAt at,
      List<FlightLine> lines,
      Map<UUID, List<FiledWith.Line>> with,
      Pager pager,
      String howOld,
      int openBreaks,
      boolean mayFile,
      String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record FlightPage(
      AircraftSheet aircraft,
      FlightLine line,
      List<FlightLine.Row> rows,
      List<FiledWith.Line> with,
      boolean justFiled,
      boolean mayFile,
      boolean mayExplain,
      String times)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/flights")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response log(
      @PathParam("id") UUID id, @QueryParam("page") String asked, @Context UriInfo uri) {
    AsAt at = views.asked(viewer, uri.getQueryParameters());
    AircraftSheet aircraft = fleet.sheet(viewer, id, at.view());
    Flights.Page page = flights.page(viewer, id, at.view(), number(asked));
    FlightWords words = words(aircraft);
    List<FlightLine> shown = page.entries().stream().map(words::line).toList();
    int open = (int) shown.stream().filter(FlightLine::open).count();
    return Answers.page(
        at.status(),
        new JourneyLogPage(
            aircraft,
            at,
            shown,
            at.isPast() ? Map.of() : filedWith.of(viewer, page.entries()),
            Pager.of(page.number(), Flights.PAGE, page.flights(), uri),
            words.howOld(lines.of(viewer, id, at.view())),
            open,
            mayFile(),
            viewer.flightTimes()));
  }

  @GET
  @Path("aircraft/{id}/flights/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id, @QueryParam("after") UUID after) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, now());
    return Answers.page(page(aircraft, forms.blank(viewer, aircraft, after)));
  }

  @POST
  @Path("aircraft/{id}/flights")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response file(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, now());
    FlightForm read = forms.of(viewer, aircraft, Form.of(posted));
    FlightDraft draft = forms.read(viewer, aircraft, read, false);
    if (read.form().isReady()) {
      try {
        JourneyLog.Logged logged = log.file(viewer, id, draft, read.found(), read.form().key());
        boolean next = read.form().has("then", "next") && !logged.isDisputed();
        return Answers.see(
            next
                ? "/aircraft/" + id + "/flights/new?after=" + logged.id()
                : "/flights/" + logged.id() + "?filed=1");
      } catch (Refusal refusal) {
        read.form().refused(refusal);
      } catch (Stale stale) {
        read.form().fail("", stale.getMessage());
        return Answers.page(409, page(aircraft, read));
      }
    }
    return Answers.again(read.form(), page(aircraft, read));
  }

  @GET
  @Path("flights/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @QueryParam("filed") String filed) {
    Flights.Entry entry = flights.entry(viewer, id);
    AircraftSheet aircraft = fleet.sheet(viewer, entry.current().aircraftId(), View.EVERYTHING);
    FlightWords words = words(aircraft);
    return Answers.page(
        new FlightPage(
            aircraft,
            words.line(entry),
            words.rows(entry, members.names(viewer)),
            filedWith.of(viewer, List.of(entry)).get(entry.current().id()),
            filed != null,
            mayFile(),
            mayExplain(),
            viewer.flightTimes()));
  }

  private FlightNew page(AircraftSheet aircraft, FlightForm read) {
    return new FlightNew(
        aircraft,
        read,
        read.form(),
        forms.totalBefore(viewer, aircraft),
        forms.hints(viewer, aircraft),
        viewer.flightTimes());
  }

  private FlightWords words(AircraftSheet aircraft) {
    return new FlightWords(aircraft, viewer.flightZone(), today());
  }

  private boolean mayFile() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.PILOT, Role.ENGINEER);
  }

  private boolean mayExplain() {
    return viewer.isAny(Role.CONTROLLER, Role.ENGINEER);
  }

  private static int number(String asked) {
    return asked != null && asked.matches("\\d{1,6}") ? Integer.parseInt(asked) : 1;
  }

  private View now() {
    return View.asAt(today());
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
