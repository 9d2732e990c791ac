package trestle.profiles;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.profiles.ProfileOwners.Whose;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.NotHere;
import trestle.web.Role;
import trestle.web.Viewer;

/** The rule profile of the operator and, where it differs, of an aircraft. */
@Path("/")
@RequestScoped
public class ProfilePages {
  @Inject RuleProfiles profiles;
  @Inject ProfileOwners owners;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  record Line(Revised revised, String by, boolean example) {}

  @CheckedTemplate(basePath = "profiles", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ProfilePage(
      Whose whose,
      RuleProfile profile,
      boolean differs,
      Example startedFrom,
      List<ProfileWords.Part> parts,
      List<Line> history,
      List<Example> examples,
      List<AircraftSheet> differing,
      boolean mayRevise)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "profiles", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ExamplePage(Example example, List<ProfileWords.Part> parts) implements TemplateInstance {}

  @GET
  @Path("rule-profile")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofOperator() {
    return page(owners.operator());
  }

  @GET
  @Path("aircraft/{id}/rule-profile")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofAircraft(@PathParam("id") UUID id) {
    return page(owners.aircraft(viewer, id, now()));
  }

  @GET
  @Path("rule-profile/examples/{key}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response example(@PathParam("key") String key) {
    Example example = Examples.of(key);
    if (example == null) {
      throw new NotHere("There is no such example here.");
    }
    return Answers.page(new ExamplePage(example, ProfileWords.of(example.profile(), example)));
  }

  private Response page(Whose whose) {
    RuleProfile profile = profiles.of(viewer, whose.aircraftId(), now());
    List<Revised> all = profiles.history(viewer, whose.aircraftId());
    Example example = Examples.of(owners.startedFrom(viewer, whose));
    Map<UUID, String> names = members.names(viewer);
    List<Line> lines = new ArrayList<>();
    for (Revised one : all) {
      lines.add(0, new Line(one, names.get(one.recordedBy()), one.profile().example()));
    }
    return Answers.page(
        new ProfilePage(
            whose,
            profile,
            whose.aircraft() != null && !all.isEmpty() && !all.get(all.size() - 1).ended(),
            example,
            ProfileWords.of(profile, example),
            lines,
            Examples.all(),
            whose.aircraft() == null ? differing() : List.of(),
            viewer.isAny(Role.OWNER, Role.CONTROLLER)));
  }

  private List<AircraftSheet> differing() {
    List<UUID> ids = profiles.differing(viewer, now());
    return ids.isEmpty()
        ? List.of()
        : fleet.sheets(viewer, ids, now()).values().stream()
            .sorted(java.util.Comparator.comparing(AircraftSheet::registration))
            .toList();
  }

  private View now() {
    return View.asAt(today());
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
