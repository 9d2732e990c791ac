package trestle.apron;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.flights.FlightDraft;
import trestle.flights.FlightForm;
import trestle.flights.FlightForms;
import trestle.flights.FlightHints;
import trestle.flights.FlightSheet;
import trestle.flights.Flights;
import trestle.ledger.View;
import trestle.standing.AircraftStanding;
import trestle.standing.Standings;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * The report after a flight. The form works as any other; with scripts the phone keeps it until the
 * server has acknowledged it (see assets/outbox.js), and asks for the answer as JSON.
 */
@Path("/")
@RequestScoped
public class ReportPages {
  @Inject Reports reports;
  @Inject FlightForms forms;
  @Inject Flights flights;
  @Inject Fleet fleet;
  @Inject Standings standings;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * @param made when this page was made: a phone that kept it says how old it is
   * @param zone in which its dates and times are
   */
  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ReportNew(
      AircraftSheet aircraft,
      FlightForm f,
      Form form,
      String before,
      FlightHints hints,
      String times,
      Instant made,
      String zone)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ReportReceived(
      AircraftSheet aircraft, FlightSheet flight, String day, AircraftStanding standing)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/reports/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id, @QueryParam("after") UUID after) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, now());
    return Answers.page(page(aircraft, forms.blank(viewer, aircraft, after)));
  }

  @POST
  @Path("aircraft/{id}/reports")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response file(
      @PathParam("id") UUID id,
      @HeaderParam("Accept") String accept,
      MultivaluedMap<String, String> posted) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, now());
    FlightForm read = forms.of(viewer, aircraft, Form.of(posted));
    Form form = read.form();
    boolean json = accept != null && accept.contains(MediaType.APPLICATION_JSON);
    FlightDraft flight = read.read();
    if (!Sender.of(viewer).wrote(form)) {
      form.fail("", "Somebody else wrote this report: it is theirs to send, once they sign in.");
      return again(403, json, aircraft, read);
    }
    if (form.isReady()) {
      try {
        return done(json, id, form, reports.file(viewer, id, flight, form.key()));
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return again(409, json, aircraft, read);
      }
    }
    return again(form.isBad() ? 422 : 200, json, aircraft, read);
  }

  @GET
  @Path("aircraft/{id}/reports/{flight}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response received(@PathParam("id") UUID id, @PathParam("flight") UUID flight) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, View.EVERYTHING);
    FlightSheet filed = row(flights.entry(viewer, flight), flight);
    if (!filed.aircraftId().equals(id)) {
      throw new NotHere("There is no such report of this aircraft.");
    }
    LocalDate today = viewer.dateOf(clock.instant());
    LocalDate day = filed.flight().takeOff().atZone(viewer.flightZone()).toLocalDate();
    return Answers.page(
        new ReportReceived(
            aircraft,
            filed,
            Shown.day(day, today),
            standings.now(viewer, List.of(id), today).get(id)));
  }

  private static FlightSheet row(Flights.Entry entry, UUID row) {
    return entry.rows().stream().filter(each -> each.id().equals(row)).findFirst().orElseThrow();
  }

  private static Response done(boolean json, UUID aircraft, Form form, Reports.Received received) {
    String link = "/aircraft/" + aircraft + "/reports/" + received.flightId();
    if (json) {
      return ReportJson.received(received, link);
    }
    boolean next = form.has("then", "next") && !received.disputed();
    return Answers.see(
        next ? "/aircraft/" + aircraft + "/reports/new?after=" + received.flightId() : link);
  }

  private Response again(int status, boolean json, AircraftSheet aircraft, FlightForm read) {
    return json
        ? ReportJson.problem(status, read.form())
        : Answers.page(status, page(aircraft, read));
  }

  private ReportNew page(AircraftSheet aircraft, FlightForm read) {
    return new ReportNew(
        aircraft,
        read,
        read.form(),
        forms.totalBefore(viewer, aircraft),
        forms.hints(viewer, aircraft),
        viewer.timesInUtc() ? "UTC" : "local time",
        clock.instant().truncatedTo(ChronoUnit.SECONDS),
        viewer.flightZone().getId());
  }

  private View now() {
    return View.asAt(viewer.dateOf(clock.instant()));
  }
}
