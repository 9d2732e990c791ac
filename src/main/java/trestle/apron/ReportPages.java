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
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.defects.DefectBook;
import trestle.defects.DefectForm;
import trestle.defects.DefectSheet;
import trestle.defects.Earlier;
import trestle.defects.Photos;
import trestle.defects.Repeats;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
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
import trestle.web.OutboxJson;
import trestle.web.Refusal;
import trestle.web.Sender;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.Upload;
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
  @Inject DefectBook book;
  @Inject Repeats repeats;
  @Inject Photos photos;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject Standings standings;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * @param filed what this form has filed before, when it is sent with other content; else null
   * @param zone in which its dates and times are: a kept page begins with today's date there
   */
  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ReportNew(
      AircraftSheet aircraft,
      ReportForm r,
      Form form,
      String before,
      FlightHints hints,
      String times,
      FlightSheet filed,
      String zone)
      implements TemplateInstance {}

  /**
   * @param defects that came with it, as they now stand
   */
  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ReportReceived(
      AircraftSheet aircraft,
      FlightSheet flight,
      String day,
      AircraftStanding standing,
      List<Found> defects)
      implements TemplateInstance {}

  /** A defect of the report, and when it was there before. */
  public record Found(DefectSheet defect, List<Earlier> earlier) {}

  @GET
  @Path("aircraft/{id}/reports/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id, @QueryParam("after") UUID after) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, now());
    return Answers.page(page(aircraft, form(aircraft, forms.blank(viewer, aircraft, after)), null));
  }

  @POST
  @Path("aircraft/{id}/reports")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response file(@PathParam("id") UUID id, @HeaderParam("Accept") String accept) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, now());
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    ReportForm read = form(aircraft, forms.of(viewer, aircraft, form));
    boolean json = OutboxJson.isAsked(accept);
    Report report = read.read(flown(aircraft, read), clock.instant());
    if (!Sender.of(viewer).wrote(form)) {
      return again(403, json, aircraft, read);
    }
    if (form.isReady()) {
      try {
        Report whole = withPhotos(report, upload);
        return done(json, id, form, reports.file(viewer, id, whole, form.key()));
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
            standings.now(viewer, List.of(id), today).get(id),
            found(filed.entryId())));
  }

  private List<Found> found(UUID flightEntryId) {
    List<DefectSheet> defects =
        book.ofFlights(viewer, List.of(flightEntryId)).getOrDefault(flightEntryId, List.of());
    Map<UUID, List<Earlier>> earlier =
        repeats.of(viewer, defects.stream().map(DefectSheet::entryId).toList());
    return defects.stream()
        .map(defect -> new Found(defect, earlier.getOrDefault(defect.entryId(), List.of())))
        .toList();
  }

  /** What is on file already is asked nothing more: it only wants its answer again. */
  private FlightDraft flown(AircraftSheet aircraft, ReportForm read) {
    return flights.ofForm(viewer, read.form().key()).isPresent()
        ? read.flight().read()
        : forms.read(viewer, aircraft, read.flight(), read.saysDefect());
  }

  /** Photos are looked into before the transaction begins, since that takes its time. */
  private Report withPhotos(Report report, Upload upload) {
    return report.defect() == null
        ? report
        : new Report(
            report.flight(),
            report.fluids(),
            report.defect(),
            photos.prepare(viewer, upload.files(Photos.FIELD)));
  }

  private static FlightSheet row(Flights.Entry entry, UUID row) {
    return entry.rows().stream().filter(each -> each.id().equals(row)).findFirst().orElseThrow();
  }

  private static Response done(boolean json, UUID aircraft, Form form, Reports.Received received) {
    String link = "/aircraft/" + aircraft + "/reports/" + received.flightId();
    if (json) {
      return OutboxJson.received("", received.number(), link);
    }
    boolean next = form.has("then", "next") && !received.disputed();
    return Answers.see(
        next ? "/aircraft/" + aircraft + "/reports/new?after=" + received.flightId() : link);
  }

  private Response again(int status, boolean json, AircraftSheet aircraft, ReportForm read) {
    Form form = read.form();
    FlightSheet filed = status == 409 ? flights.ofForm(viewer, form.key()).orElse(null) : null;
    return json
        ? OutboxJson.problem(
            status, form, read.onlyAsks(), filed == null ? null : "/flights/" + filed.id())
        : Answers.page(status, page(aircraft, read, filed));
  }

  private ReportForm form(AircraftSheet aircraft, FlightForm flight) {
    List<Fitting> fitted =
        components
            .fittings(viewer, List.of(aircraft.id()), now())
            .getOrDefault(aircraft.id(), List.of());
    return new ReportForm(flight, new DefectForm(flight.form(), viewer, clock.instant(), fitted));
  }

  private ReportNew page(AircraftSheet aircraft, ReportForm read, FlightSheet filed) {
    return new ReportNew(
        aircraft,
        read,
        read.form(),
        forms.totalBefore(viewer, aircraft),
        forms.hints(viewer, aircraft),
        viewer.flightTimes(),
        filed,
        viewer.flightZone().getId());
  }

  private View now() {
    return View.asAt(viewer.dateOf(clock.instant()));
  }
}
