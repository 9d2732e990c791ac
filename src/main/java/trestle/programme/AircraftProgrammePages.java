package trestle.programme;

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
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** Which programme one aircraft follows, what it is spared of it, and what it has of its own. */
@Path("/")
@RequestScoped
public class AircraftProgrammePages {
  @Inject Programmes programmes;
  @Inject Requirements requirements;
  @Inject Compliances compliances;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** A requirement as this aircraft carries it, or not. */
  public record Line(
      UUID id, String subject, Revision revision, boolean own, Programmes.Excluded excluded) {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record AircraftProgramme(
      AircraftSheet aircraft,
      Programmes.Following following,
      List<Line> lines,
      List<Option> programmes,
      List<Option> excludable,
      List<Compliances.Discrepancy> discrepancies,
      Form adoption,
      Form exclusion,
      boolean mayChange,
      List<Option> changes)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/programme")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    return Answers.page(page(id, blank(), blank()));
  }

  @POST
  @Path("aircraft/{id}/programme/adoptions")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response adopt(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    UUID programme = form.required("programme", "Programme").uuid();
    LocalDate on = form.required("on", "From").dateUpTo(today());
    String reason = form.optional("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        programmes.adopt(viewer, id, programme, on, reason, form.key());
        boolean another = programmes.following(viewer, id, View.asAt(today())).all().size() > 1;
        return Answers.see("/aircraft/" + id + "/programme" + (another ? "/carry-over" : ""));
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(id, form, blank()));
  }

  @POST
  @Path("aircraft/{id}/programme/exclusions")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response exclude(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    UUID requirement = form.required("requirement", "Requirement").uuid();
    String change = form.required("change", "Change").choice("exclude", "include");
    LocalDate on = form.required("excluded-on", "From").dateUpTo(today());
    String reason = form.required("reason-excluded", "Reason").text(500);
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    if (form.isReady()) {
      try {
        if (change.equals("exclude")) {
          programmes.exclude(viewer, id, requirement, on, reason, approvedBy);
        } else {
          programmes.include(viewer, id, requirement, on, reason, approvedBy);
        }
        return Answers.see("/aircraft/" + id + "/programme");
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(id, blank(), form));
  }

  private TemplateInstance page(UUID id, Form adoption, Form exclusion) {
    View now = View.asAt(today());
    AircraftSheet aircraft = fleet.sheet(viewer, id, now);
    Programmes.Following following = programmes.following(viewer, id, now);
    List<Line> carried =
        following.now() == null
            ? List.of()
            : lines(
                requirements.ofProgramme(viewer, following.now().programmeId(), now),
                false,
                following);
    List<Line> own = lines(requirements.ofAircraft(viewer, id, now), true, following);
    return new AircraftProgramme(
        aircraft,
        following,
        Stream.concat(carried.stream(), own.stream()).toList(),
        programmes.all(viewer, now).stream()
            .map(one -> new Option(one.id().toString(), one.name()))
            .toList(),
        carried.stream()
            .map(line -> new Option(line.id().toString(), line.revision().terms().title()))
            .toList(),
        compliances.discrepancies(viewer, List.of(id), now),
        adoption,
        exclusion,
        viewer.isAny(Role.OWNER, Role.CONTROLLER),
        new RuleChoices().changes());
  }

  private List<Line> lines(
      List<Requirements.History> all, boolean own, Programmes.Following following) {
    return all.stream()
        .filter(one -> !one.latest().withdrawn())
        .map(
            one ->
                new Line(
                    one.requirement().id(),
                    one.requirement().subject(),
                    one.latest(),
                    own,
                    following.excluded().get(one.requirement().id())))
        .toList();
  }

  private Form blank() {
    return Form.blank().with("on", today()).with("excluded-on", today()).with("change", "exclude");
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
