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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Where flights don't follow on, and the form in which a person says why. */
@Path("/")
@RequestScoped
public class BreakPages {
  private static final List<Option> FLOWN =
      List.of(
          new Option("flown", "It was flown", "and stays counted; file the flight if it is known"),
          new Option("not-flown", "It was not flown", "an engine run, a meter set; not counted"));

  @Inject Breaks breaks;
  @Inject Flights flights;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record BreakList(
      AircraftSheet aircraft, List<Shown> open, List<Shown> settled, boolean mayExplain)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record BreakExplain(
      AircraftSheet aircraft, Shown shown, Form form, boolean gap, List<Option> flown)
      implements TemplateInstance {}

  /** A break as a page writes it. */
  public record Shown(UUID flightId, UUID earlierId, String flight, FlightLine.Note note) {}

  @GET
  @Path("aircraft/{id}/breaks")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all(@PathParam("id") UUID id) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, now());
    List<Breaks.Line> lines = breaks.of(viewer, id, now());
    return Answers.page(
        new BreakList(
            aircraft,
            shown(aircraft, lines.stream().filter(Breaks.Line::isOpen).toList()),
            shown(aircraft, lines.stream().filter(line -> !line.isOpen()).toList()),
            viewer.isAny(Role.CONTROLLER, Role.ENGINEER)));
  }

  @GET
  @Path("flights/{id}/explanations")
  @RolesAllowed({Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id, @QueryParam("kind") String kind) {
    Breaks.Line line = line(id, kind);
    Form form = Form.blank().with("kind", kind).with("amount", line.amount());
    return Answers.page(page(line, form));
  }

  @POST
  @Path("flights/{id}/explanations")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.CONTROLLER, Allow.ENGINEER})
  public Response explain(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Breaks.Line line = line(id, form.value("kind"));
    boolean gap = line.kind() == BreakKind.GAP;
    String flown = gap ? form.required("flown", "The gap").choice("flown", "not-flown") : "flown";
    String explanation = form.required("explanation", "Explanation").lines(2000);
    Long amount = form.optional("amount", "Amount").read(Long::valueOf);
    if (form.isReady()) {
      try {
        breaks.explain(
            viewer,
            new Breaks.Explaining(
                id, line.kind(), amount, "flown".equals(flown), explanation, form.key()));
        return Answers.see("/aircraft/" + line.flight().aircraftId() + "/breaks");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page(line, form));
      }
    }
    return Answers.again(form, page(line, form));
  }

  private BreakExplain page(Breaks.Line line, Form form) {
    AircraftSheet aircraft = fleet.sheet(viewer, line.flight().aircraftId(), View.EVERYTHING);
    return new BreakExplain(
        aircraft, shown(aircraft, List.of(line)).get(0), form, line.kind() == BreakKind.GAP, FLOWN);
  }

  private Breaks.Line line(UUID flightId, String kind) {
    return flights.entry(viewer, flightId).breaks().stream()
        .filter(line -> line.flight().id().equals(flightId) && line.kind().word().equals(kind))
        .findFirst()
        .orElseThrow(() -> new NotHere("This flight follows on from the one before it."));
  }

  private List<Shown> shown(AircraftSheet aircraft, List<Breaks.Line> lines) {
    FlightWords words =
        new FlightWords(aircraft, viewer.flightZone(), viewer.dateOf(clock.instant()));
    return lines.stream()
        .map(
            line ->
                new Shown(
                    line.flight().id(),
                    line.earlier() == null ? null : line.earlier().id(),
                    words.brief(line.flight()),
                    words.note(line)))
        .toList();
  }

  private View now() {
    LocalDate today = viewer.dateOf(clock.instant());
    return View.asAt(today);
  }
}
