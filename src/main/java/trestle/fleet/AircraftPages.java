package trestle.fleet;

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
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** A new aircraft, and its particulars with their revisions. */
@Path("/")
@RequestScoped
public class AircraftPages {
  private static final List<Option> ENGINES =
      List.of(
          new Option("single", "One engine, one propeller"),
          new Option("twin", "Two engines, two propellers"),
          new Option("none", "I set the positions myself"));

  @Inject Fleet fleet;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record AircraftNew(
      Form form,
      List<Option> basis,
      List<Option> rounding,
      List<Option> shown,
      List<Option> fuel,
      List<Option> engines,
      String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record AircraftParticulars(
      AircraftSheet aircraft,
      Form form,
      List<Option> basis,
      List<Option> rounding,
      List<Option> shown,
      List<Option> fuel,
      List<Version> versions,
      Version newer,
      boolean mayRevise)
      implements TemplateInstance {}

  /** One revision as the page writes it. */
  public record Version(Fleet.Stated stated, String from, String filed, String basis) {}

  @GET
  @Path("aircraft/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask() {
    Form form = AircraftForm.blank().with("on", trestle.web.Shown.typed(today()));
    return Answers.page(page(form));
  }

  @POST
  @Path("aircraft")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response register(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Particulars stated = AircraftForm.read(form);
    String engines = form.required("engines", "Positions").choice("single", "twin", "none");
    Instant from = StatedMoment.of(form, "Totals as at", viewer, clock.instant());
    Map<Counter, Long> openings = openings(form);
    if (form.isReady()) {
      try {
        UUID id =
            fleet.register(
                viewer,
                new Fleet.Registering(stated, positions(engines), from, openings, form.key()));
        return Answers.see("/aircraft/" + id);
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(form));
  }

  @GET
  @Path("aircraft/{id}/particulars")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response particulars(@PathParam("id") UUID id) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, View.EVERYTHING);
    Form form =
        AircraftForm.filled(aircraft.particulars())
            .with("revises", aircraft.revisionId())
            .with("from", trestle.web.Shown.typed(today()));
    return Answers.page(page(id, form, false));
  }

  @POST
  @Path("aircraft/{id}/particulars")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    Particulars stated = AircraftForm.read(form);
    LocalDate from = form.required("from", "Holds from").dateUpTo(today());
    String reason = form.required("reason", "Reason").text(500);
    UUID revises = form.required("revises", "Revision").uuid();
    if (form.isReady()) {
      try {
        fleet.revise(viewer, id, new Fleet.Revising(revises, stated, from, reason, form.key()));
        return Answers.see("/aircraft/" + id + "/particulars");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page(id, form, true));
      }
    }
    return Answers.again(form, page(id, form, false));
  }

  private AircraftNew page(Form form) {
    return new AircraftNew(
        form,
        AircraftForm.BASIS,
        AircraftForm.ROUNDING,
        AircraftForm.SHOWN,
        AircraftForm.FUEL,
        ENGINES,
        viewer.timesInUtc() ? "UTC" : "local time");
  }

  private AircraftParticulars page(UUID id, Form form, boolean stale) {
    List<Version> versions =
        fleet.particularsHistory(viewer, id).stream().map(this::version).toList();
    return new AircraftParticulars(
        fleet.sheet(viewer, id, View.EVERYTHING),
        form,
        AircraftForm.BASIS,
        AircraftForm.ROUNDING,
        AircraftForm.SHOWN,
        AircraftForm.FUEL,
        versions,
        stale ? versions.get(0) : null,
        viewer.isAny(Role.OWNER, Role.CONTROLLER));
  }

  private Version version(Fleet.Stated stated) {
    return new Version(
        stated,
        trestle.web.Shown.date(stated.from()),
        trestle.web.Shown.moment(stated.recordedAt(), viewer.flightZone())
            + " by "
            + name(stated.recordedBy()),
        new AircraftSheet(null, null, stated.particulars()).basisWords());
  }

  private String name(UUID person) {
    return members.all(viewer).stream()
        .filter(member -> member.personId().equals(person))
        .map(Members.Member::name)
        .findFirst()
        .orElse("someone no longer here");
  }

  /** Hours and landings always, blank for not known; the others when they are counted. */
  private static Map<Counter, Long> openings(Form form) {
    Map<Counter, Long> openings = new HashMap<>();
    openings.put(Counter.HOURS, seconds(form.optional("hours", "Time in service").hours()));
    openings.put(Counter.LANDINGS, form.optional("landings", "Landings").count());
    Hours flightHours = form.optional("flight-hours", "Flight hours").hours();
    if (flightHours != null) {
      openings.put(new Counter("flight-hours"), flightHours.seconds());
    }
    Long cycles = form.optional("cycles", "Cycles").count();
    if (cycles != null) {
      openings.put(new Counter("cycles"), cycles);
    }
    return openings;
  }

  private static Long seconds(Hours hours) {
    return hours == null ? null : hours.seconds();
  }

  private static List<Position> positions(String engines) {
    return switch (engines) {
      case "single" -> Position.single();
      case "twin" -> Position.twin();
      default -> List.of();
    };
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
