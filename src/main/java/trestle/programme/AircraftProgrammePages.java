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
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
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
import trestle.web.Viewer;

/** Which programme one aircraft follows, what it is spared of it, and what it has of its own. */
@Path("/")
@RequestScoped
public class AircraftProgrammePages {
  @Inject Programmes programmes;
  @Inject RequirementRecords requirementRecords;
  @Inject ComplianceRecords complianceRecords;
  @Inject ProgrammeRevisions revisions;
  @Inject Differences differences;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * A requirement as this aircraft carries it, or not.
   *
   * @param instead the programme's rule for work of the same title, of one of the aircraft's own;
   *     or ""
   */
  public record Line(
      UUID id,
      String subject,
      Revision revision,
      boolean own,
      Programmes.Excluded excluded,
      String instead) {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record AircraftProgramme(
      AircraftSheet aircraft,
      Programmes.Following following,
      List<Line> lines,
      Differences.Found found,
      List<Option> programmes,
      List<Option> excludable,
      List<ComplianceRecords.Discrepancy> discrepancies,
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
    String[] chosen = split(form.required("programme", "Programme").text(80));
    LocalDate on = form.required("on", "From").dateUpTo(today());
    String reason = form.optional("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        // Asked before: what is filed is acknowledged, whatever happens next.
        boolean another = !programmes.following(viewer, id, View.asAt(today())).all().isEmpty();
        adopt(id, chosen, on, reason, form.key());
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
          programmes.exclude(viewer, id, requirement, on, reason, approvedBy, form.key());
        } else {
          programmes.include(viewer, id, requirement, on, reason, approvedBy, form.key());
        }
        return Answers.see("/aircraft/" + id + "/programme");
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(id, blank(), form));
  }

  /** A programme, and its revision where it has some; with the programme alone the newest. */
  private void adopt(UUID id, String[] chosen, LocalDate on, String reason, UUID key) {
    UUID programme = uuid(chosen[0]);
    if (chosen.length == 1) {
      programmes.adopt(viewer, id, programme, on, reason, key);
    } else {
      programmes.adopt(viewer, id, programme, uuid(chosen[1]), on, reason, key);
    }
  }

  private static String[] split(String chosen) {
    return chosen == null ? new String[] {""} : chosen.split("/", 2);
  }

  private static UUID uuid(String text) {
    try {
      return UUID.fromString(text);
    } catch (IllegalArgumentException e) {
      throw new NotHere("There is no such programme here.");
    }
  }

  private TemplateInstance page(UUID id, Form adoption, Form exclusion) {
    View now = View.asAt(today());
    AircraftSheet aircraft = fleet.sheet(viewer, id, now);
    Programmes.Following following = programmes.following(viewer, id, now);
    List<RequirementRecords.History> ofProgramme =
        following.now() == null
            ? List.of()
            : requirementRecords.ofProgramme(viewer, following.now().programmeId(), now);
    List<Line> carried = carried(ofProgramme, following);
    List<Line> own = own(requirementRecords.ofAircraft(viewer, id, now), carried);
    return new AircraftProgramme(
        aircraft,
        following,
        Stream.concat(carried.stream(), own.stream()).toList(),
        following.now() == null
            ? new Differences.Found(null, List.of(), List.of())
            : differences.of(viewer, aircraft, following.now(), ofProgramme, now),
        choices(now),
        carried.stream()
            .map(line -> new Option(line.id().toString(), line.revision().terms().title()))
            .toList(),
        complianceRecords.discrepancies(viewer, List.of(id), now),
        adoption,
        exclusion,
        viewer.isAny(Role.OWNER, Role.CONTROLLER),
        new RuleChoices().changes());
  }

  /** Every programme, or each of its revisions that is in force, the newest first. */
  private List<Option> choices(View now) {
    List<Option> choices = new ArrayList<>();
    Map<UUID, List<Issued>> issued = revisions.ofAll(viewer, now);
    for (ProgrammeSheet one : programmes.all(viewer, now)) {
      List<Issued> all = issued.getOrDefault(one.id(), List.of());
      if (all.isEmpty()) {
        choices.add(new Option(one.id().toString(), one.name()));
      }
      for (int i = all.size() - 1; i >= 0; i--) {
        choices.add(
            new Option(one.id() + "/" + all.get(i).id(), one.name() + ", " + all.get(i).words()));
      }
    }
    return choices;
  }

  /** What the programme asks in the revision that was taken up. */
  private static List<Line> carried(
      List<RequirementRecords.History> all, Programmes.Following following) {
    List<Line> lines = new ArrayList<>();
    for (RequirementRecords.History one : all) {
      Revision taken = one.under(following.now().revision());
      if (taken != null && !taken.withdrawn()) {
        UUID id = one.requirement().id();
        lines.add(
            new Line(
                id, one.requirement().subject(), taken, false, following.excluded().get(id), ""));
      }
    }
    return lines;
  }

  private static List<Line> own(List<RequirementRecords.History> all, List<Line> carried) {
    return all.stream()
        .filter(one -> !one.latest().withdrawn())
        .map(
            one ->
                new Line(
                    one.requirement().id(),
                    one.requirement().subject(),
                    one.latest(),
                    true,
                    null,
                    instead(one.latest(), carried)))
        .toList();
  }

  private static String instead(Revision own, List<Line> carried) {
    return carried.stream()
        .filter(line -> line.revision().terms().title().equalsIgnoreCase(own.terms().title()))
        .map(line -> line.revision().ruleWords())
        .findFirst()
        .orElse("");
  }

  private Form blank() {
    return Form.blank().with("on", today()).with("excluded-on", today()).with("change", "exclude");
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
