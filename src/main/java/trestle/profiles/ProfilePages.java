package trestle.profiles;

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
import java.util.stream.Collectors;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** The rule profile of the operator and, where it differs, of an aircraft. */
@Path("/")
@RequestScoped
public class ProfilePages {
  /** The choice of an aircraft that goes by its operator's profile. */
  private static final String OPERATORS = "operator";

  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * Whose profile a page is about.
   *
   * @param aircraft null for the operator's own
   * @param path the address of its page
   */
  record Whose(AircraftSheet aircraft, String path) {
    UUID aircraftId() {
      return aircraft == null ? null : aircraft.id();
    }
  }

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

  @CheckedTemplate(basePath = "profiles", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ProfileChoose(Whose whose, Form form, List<Option> examples, Theirs theirs)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "profiles", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ProfileRevise(Whose whose, Form form, ProfileChoices words, Theirs theirs)
      implements TemplateInstance {}

  /** What someone else filed meanwhile. */
  record Theirs(Revised revised, String by, List<ProfileWords.Part> parts) {}

  @GET
  @Path("rule-profile")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofOperator() {
    return page(whose(null));
  }

  @GET
  @Path("aircraft/{id}/rule-profile")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofAircraft(@PathParam("id") UUID id) {
    return page(whose(id));
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

  @GET
  @Path("rule-profile/choice")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askChoice() {
    return choicePage(whose(null));
  }

  @GET
  @Path("aircraft/{id}/rule-profile/choice")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askChoice(@PathParam("id") UUID id) {
    return choicePage(whose(id));
  }

  @POST
  @Path("rule-profile/choice")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response choose(MultivaluedMap<String, String> posted) {
    return choose(whose(null), Form.of(posted));
  }

  @POST
  @Path("aircraft/{id}/rule-profile/choice")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response choose(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return choose(whose(id), Form.of(posted));
  }

  @GET
  @Path("rule-profile/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askRevision() {
    return revisionPage(whose(null));
  }

  @GET
  @Path("aircraft/{id}/rule-profile/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askRevision(@PathParam("id") UUID id) {
    return revisionPage(whose(id));
  }

  @POST
  @Path("rule-profile/revision")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(MultivaluedMap<String, String> posted) {
    return revise(whose(null), Form.of(posted));
  }

  @POST
  @Path("aircraft/{id}/rule-profile/revision")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return revise(whose(id), Form.of(posted));
  }

  private Response page(Whose whose) {
    RuleProfile profile = profiles.of(viewer, whose.aircraftId(), now());
    List<Revised> all = profiles.history(viewer, whose.aircraftId());
    Example example = Examples.of(startedFrom(whose));
    Map<UUID, String> names = names();
    List<Line> lines = new ArrayList<>();
    for (Revised one : all) {
      lines.add(0, new Line(one, names.get(one.recordedBy()), one.profile().example()));
    }
    return Answers.page(
        new ProfilePage(
            whose,
            profile,
            whose.aircraft() != null && !all.isEmpty() && !last(all).ended(),
            example,
            ProfileWords.of(profile, example),
            lines,
            Examples.all(),
            whose.aircraft() == null ? differing() : List.of(),
            viewer.isAny(Role.OWNER, Role.CONTROLLER)));
  }

  private Response choicePage(Whose whose) {
    Form form =
        Form.blank()
            .with("example", startedFrom(whose))
            .with("from", today())
            .with("revises", latestId(whose));
    return Answers.page(new ProfileChoose(whose, form, choices(whose), null));
  }

  private Response choose(Whose whose, Form form) {
    UUID revises = form.optional("revises", "What is revised").uuid();
    String key =
        form.required("example", "Example")
            .choice(choices(whose).stream().map(Option::value).toList());
    LocalDate from = form.required("from", "In force from").date();
    String reason = form.required("reason", "Reason").text(500);
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    int status = 422;
    if (form.isReady()) {
      boolean ends = key.equals(OPERATORS);
      String startedFrom = ends ? startedFrom(whose(null)) : key;
      RuleProfile says = ends ? null : profiles.chosen(viewer, whose.aircraftId(), key);
      try {
        profiles.revise(
            viewer,
            new NewProfile(
                whose.aircraftId(),
                revises,
                startedFrom,
                says,
                from,
                reason,
                approvedBy,
                form.key()));
        return Answers.see(whose.path());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        status = 409;
        form.fail("", stale.getMessage());
        form.with("revises", latestId(whose));
      }
    }
    Theirs theirs = status == 409 ? theirs(whose) : null;
    return Answers.page(
        form.isBad() ? status : 200, new ProfileChoose(whose, form, choices(whose), theirs));
  }

  private Response revisionPage(Whose whose) {
    RuleProfile profile = profiles.of(viewer, whose.aircraftId(), View.EVERYTHING);
    Form form =
        ProfileForm.of(profile)
            .with("started-from", startedFrom(whose))
            .with("from", today())
            .with("revises", latestId(whose));
    return Answers.page(new ProfileRevise(whose, form, new ProfileChoices(form), null));
  }

  private Response revise(Whose whose, Form form) {
    RuleProfile says = ProfileForm.read(form);
    LocalDate from = form.required("from", "In force from").date();
    String reason = form.required("reason", "Reason").text(500);
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    UUID revises = form.optional("revises", "What is revised").uuid();
    String startedFrom =
        form.required("started-from", "Example")
            .choice(Examples.all().stream().map(Example::key).toList());
    int status = 422;
    if (form.isReady()) {
      try {
        profiles.revise(
            viewer,
            new NewProfile(
                whose.aircraftId(),
                revises,
                startedFrom,
                says,
                from,
                reason,
                approvedBy,
                form.key()));
        return Answers.see(whose.path());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        status = 409;
        form.fail("", stale.getMessage());
        form.with("revises", latestId(whose));
      }
    }
    Theirs theirs = status == 409 ? theirs(whose) : null;
    return Answers.page(
        form.isBad() ? status : 200,
        new ProfileRevise(whose, form, new ProfileChoices(form), theirs));
  }

  private Theirs theirs(Whose whose) {
    Revised latest = last(profiles.history(viewer, whose.aircraftId()));
    return new Theirs(
        latest, names().get(latest.recordedBy()), ProfileWords.of(latest.profile(), null));
  }

  private List<Option> choices(Whose whose) {
    List<Option> options = new ArrayList<>();
    if (whose.aircraft() != null) {
      options.add(new Option(OPERATORS, "The operator’s rule profile", "Nothing differs."));
    }
    Examples.all().forEach(one -> options.add(new Option(one.key(), one.title(), one.about())));
    return options;
  }

  /** The key of the example that a profile in force started from. */
  private String startedFrom(Whose whose) {
    List<Revised> all = profiles.history(viewer, whose.aircraftId());
    if (!all.isEmpty() && !last(all).ended()) {
      return last(all).startedFrom();
    }
    return whose.aircraft() == null ? Examples.plain().key() : startedFrom(whose(null));
  }

  private UUID latestId(Whose whose) {
    List<Revised> all = profiles.history(viewer, whose.aircraftId());
    return all.isEmpty() ? null : last(all).id();
  }

  private List<AircraftSheet> differing() {
    List<UUID> ids = profiles.differing(viewer, now());
    return ids.isEmpty()
        ? List.of()
        : fleet.sheets(viewer, ids, now()).values().stream()
            .sorted(java.util.Comparator.comparing(AircraftSheet::registration))
            .toList();
  }

  private Whose whose(UUID aircraftId) {
    return aircraftId == null
        ? new Whose(null, "/rule-profile")
        : new Whose(
            fleet.sheet(viewer, aircraftId, now()), "/aircraft/" + aircraftId + "/rule-profile");
  }

  private Map<UUID, String> names() {
    return members.all(viewer).stream()
        .collect(Collectors.toMap(Members.Member::personId, Members.Member::name));
  }

  private static Revised last(List<Revised> all) {
    return all.get(all.size() - 1);
  }

  private View now() {
    return View.asAt(today());
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
