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
import java.util.UUID;
import java.util.function.Supplier;
import trestle.ledger.View;
import trestle.profiles.ProfileOwners.Theirs;
import trestle.profiles.ProfileOwners.Whose;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** Choosing the rule profile of the operator or of an aircraft, and revising it. */
@Path("/")
@RequestScoped
public class ProfileRevisionPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  /** The choice of an aircraft that goes by its operator's profile. */
  private static final String OPERATORS = "operator";

  @Inject RuleProfiles profiles;
  @Inject ProfileOwners owners;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(basePath = "profiles", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ProfileChoose(Whose whose, Form form, List<Option> examples, Theirs theirs)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "profiles", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ProfileRevise(Whose whose, Form form, ProfileChoices words, Theirs theirs)
      implements TemplateInstance {}

  /** What every revision says besides the profile. */
  private record Filed(UUID revises, LocalDate from, String reason, String approvedBy) {
    static Filed read(Form form) {
      return new Filed(
          form.optional("revises", "What is revised").uuid(),
          form.required("from", "In force from").date(),
          form.required("reason", "Reason").text(500),
          form.required("approved-by", "Approved by").text(120));
    }

    NewProfile of(Whose whose, String startedFrom, RuleProfile says, UUID key) {
      return new NewProfile(
          whose.aircraftId(), revises, startedFrom, says, from, reason, approvedBy, key);
    }
  }

  @GET
  @Path("rule-profile/choice")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askChoice() {
    return askChoice(owners.operator());
  }

  @GET
  @Path("aircraft/{id}/rule-profile/choice")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askChoice(@PathParam("id") UUID id) {
    return askChoice(aircraft(id));
  }

  @POST
  @Path("rule-profile/choice")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response choose(MultivaluedMap<String, String> posted) {
    return choose(owners.operator(), Form.of(posted));
  }

  @POST
  @Path("aircraft/{id}/rule-profile/choice")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response choose(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return choose(aircraft(id), Form.of(posted));
  }

  @GET
  @Path("rule-profile/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askRevision() {
    return askRevision(owners.operator());
  }

  @GET
  @Path("aircraft/{id}/rule-profile/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askRevision(@PathParam("id") UUID id) {
    return askRevision(aircraft(id));
  }

  @POST
  @Path("rule-profile/revision")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(MultivaluedMap<String, String> posted) {
    return revise(owners.operator(), Form.of(posted));
  }

  @POST
  @Path("aircraft/{id}/rule-profile/revision")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    return revise(aircraft(id), Form.of(posted));
  }

  private Response askChoice(Whose whose) {
    Form form = begun(whose, Form.blank()).with("example", owners.startedFrom(viewer, whose));
    return Answers.page(new ProfileChoose(whose, form, choices(whose), null));
  }

  private Response choose(Whose whose, Form form) {
    String key =
        form.required("example", "Example")
            .choice(choices(whose).stream().map(Option::value).toList());
    Filed filed = Filed.read(form);
    return file(
        whose,
        form,
        () ->
            OPERATORS.equals(key)
                ? filed.of(whose, owners.startedFrom(viewer, owners.operator()), null, form.key())
                : filed.of(
                    whose, key, profiles.chosen(viewer, whose.aircraftId(), key), form.key()),
        () -> new ProfileChoose(whose, form, choices(whose), theirs(whose, form)));
  }

  private Response askRevision(Whose whose) {
    RuleProfile profile = profiles.of(viewer, whose.aircraftId(), View.EVERYTHING);
    Form form =
        begun(whose, ProfileForm.of(profile))
            .with("started-from", owners.startedFrom(viewer, whose));
    return Answers.page(new ProfileRevise(whose, form, new ProfileChoices(form), null));
  }

  private Response revise(Whose whose, Form form) {
    RuleProfile says = ProfileForm.read(form);
    Filed filed = Filed.read(form);
    String startedFrom =
        form.required("started-from", "Example")
            .choice(Examples.all().stream().map(Example::key).toList());
    return file(
        whose,
        form,
        () -> filed.of(whose, startedFrom, says, form.key()),
        () -> new ProfileRevise(whose, form, new ProfileChoices(form), theirs(whose, form)));
  }

  private Response file(
      Whose whose, Form form, Supplier<NewProfile> asked, Supplier<TemplateInstance> page) {
    return Answers.filing(
        form,
        () -> {
          profiles.revise(viewer, asked.get());
          return whose.path();
        },
        page);
  }

  /** What someone else filed meanwhile, or null; sent once more, it revises theirs. */
  private Theirs theirs(Whose whose, Form form) {
    if (!form.isStale()) {
      return null;
    }
    form.with("revises", owners.latestId(viewer, whose));
    return owners.theirs(viewer, whose);
  }

  private Form begun(Whose whose, Form form) {
    return form.with("from", today()).with("revises", owners.latestId(viewer, whose));
  }

  private List<Option> choices(Whose whose) {
    List<Option> options = new ArrayList<>();
    if (whose.aircraft() != null) {
      options.add(new Option(OPERATORS, "The operator’s rule profile", "Nothing differs."));
    }
    Examples.all().forEach(one -> options.add(new Option(one.key(), one.title(), one.about())));
    return options;
  }

  private Whose aircraft(UUID id) {
    return owners.aircraft(viewer, id, View.asAt(today()));
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
