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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Effects;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Putting a flight right, or taking it away: what would move is shown first. */
@Path("/")
@RequestScoped
public class FlightCorrectionPages {
  /** The reason of what is filed to be taken back at once. */
  private static final String TRIED = "Tried out";

  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject JourneyLog log;
  @Inject Flights flights;
  @Inject FlightForms forms;
  @Inject Fleet fleet;
  @Inject Effects effects;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

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

  /** What a correction moves, begun by what is corrected: "Were there no such flight,". */
  public record Tried(String lead, Effects.Told told) {}

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

  private FlightCorrection correction(
      AircraftSheet aircraft,
      FlightForm read,
      FlightSheet original,
      Flights.Entry entry,
      boolean stale,
      Tried tried) {
    return new FlightCorrection(
        aircraft,
        read,
        read.form(),
        original,
        new FlightWords(aircraft, viewer.flightZone(), viewer.dateOf(clock.instant())).line(entry),
        stale,
        viewer.flightTimes(),
        tried);
  }
}
