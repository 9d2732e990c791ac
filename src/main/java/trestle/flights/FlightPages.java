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
import trestle.fleet.Effects;
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

/** The journey log: logging a flight, reading the log, putting a flight right. */
@Path("/")
@RequestScoped
public class FlightPages {
  /** The reason of what is filed to be taken back at once. */
  private static final String TRIED = "Tried out";

  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject JourneyLog log;
  @Inject Flights flights;
  @Inject FlightForms forms;
  @Inject UsageLines lines;
  @Inject Views views;
  @Inject FiledWithFlights filedWith;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject Effects effects;
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
  record FlightCorrection(
      AircraftSheet aircraft,
      FlightForm f,
      Form form,
      FlightSheet original,
      FlightLine now,
      boolean stale,
      String times,
      Tried tried)
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

  /** What a correction moves, begun by what is corrected: "Were there no such flight,". */
  public record Tried(String lead, Effects.Told told) {}

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
            times()));
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
            times()));
  }

  @GET
  @Path("flights/{id}/correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response askCorrection(@PathParam("id") UUID id) {
    Flights.Entry entry = flights.entry(viewer, id);
    AircraftSheet aircraft = fleet.sheet(viewer, entry.current().aircraftId(), View.EVERYTHING);
    Form filled = FlightForm.filled(entry.current().flight(), viewer.flightZone());
    return Answers.page(
        correction(
            aircraft,
            forms.ofCorrection(viewer, aircraft, filled),
            entry.current(),
            entry,
            false,
            entry.current().isVoid()
                ? null
                : new Tried(
                    "Were there no such flight,",
                    moves(entry, () -> log.voided(viewer, id, TRIED, null)))));
  }

  @POST
  @Path("flights/{id}/correction")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Flights.Entry entry = flights.entry(viewer, id);
    FlightSheet original =
        entry.rows().stream().filter(row -> row.id().equals(id)).findFirst().orElseThrow();
    AircraftSheet aircraft = fleet.sheet(viewer, original.aircraftId(), View.EVERYTHING);
    FlightForm read = forms.ofCorrection(viewer, aircraft, Form.of(posted));
    Form form = read.form();
    boolean voids = form.checked("void");
    FlightDraft draft = voids ? null : read.read();
    if (form.isReady() && form.checked("preview")) {
      Runnable filing =
          () -> {
            if (voids) {
              log.voided(viewer, id, TRIED, null);
            } else {
              log.correct(viewer, id, draft, TRIED, null);
            }
          };
      Tried tried = new Tried("With what is typed here,", moves(entry, filing));
      return Answers.page(correction(aircraft, read, original, entry, false, tried));
    }
    String reason = form.required("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        JourneyLog.Logged logged =
            voids
                ? log.voided(viewer, id, reason, form.key())
                : log.correct(viewer, id, draft, reason, form.key());
        return Answers.see("/flights/" + logged.id() + "?filed=1");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(
            409, correction(aircraft, read, original, flights.entry(viewer, id), true, null));
      }
    }
    return Answers.again(form, correction(aircraft, read, original, entry, false, null));
  }

  private Effects.Told moves(Flights.Entry entry, Runnable filing) {
    FlightSheet current = entry.current();
    return effects.of(viewer, current.id(), List.of(current.aircraftId()), filing);
  }

  private FlightNew page(AircraftSheet aircraft, FlightForm read) {
    return new FlightNew(
        aircraft,
        read,
        read.form(),
        forms.totalBefore(viewer, aircraft),
        forms.hints(viewer, aircraft),
        times());
  }

  private FlightCorrection correction(
      AircraftSheet aircraft,
      FlightForm read,
      FlightSheet original,
      Flights.Entry entry,
      boolean stale,
      Tried tried) {
    return new FlightCorrection(
        aircraft, read, read.form(), original, words(aircraft).line(entry), stale, times(), tried);
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

  /** "UTC", or "local time": what every time on these pages is in. */
  private String times() {
    return viewer.timesInUtc() ? "UTC" : "local time";
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
