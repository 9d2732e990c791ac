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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Effects;
import trestle.fleet.Fleet;
import trestle.fleet.Parts;
import trestle.ledger.View;
import trestle.profiles.RuleProfiles;
import trestle.standing.Subject;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** New requirements, their revisions, and their end. */
@Path("/")
@RequestScoped
public class RequirementPages {
  private static final int MOST_TRIED = 60;

  /** The reason and approval of what is filed to be taken back at once. */
  private static final String TRIED = "Tried out";

  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject RequirementView views;
  @Inject RuleProfiles profiles;
  @Inject Parts parts;
  @Inject Effects effects;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record RequirementNew(
      RequirementView.Owner owner,
      Form form,
      List<Option> nameable,
      List<Option> subjects,
      RuleChoices words,
      ProfileOffer offer)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record RequirementPage(RequirementView.Seen seen) implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record RequirementRevise(
      RequirementView.Owner owner,
      RequirementRecords.History requirement,
      Form form,
      List<Option> nameable,
      Revision theirs,
      RuleChoices words,
      ProfileOffer offer,
      String lead,
      Effects.Told told)
      implements TemplateInstance {}

  @GET
  @Path("requirements/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask(
      @QueryParam("programme") UUID programme,
      @QueryParam("aircraft") UUID aircraft,
      @QueryParam("component") UUID component,
      @QueryParam("part") UUID part,
      @QueryParam("kind") String kind) {
    Form form =
        RequirementForm.blank(today())
            .with("programme", programme)
            .with("aircraft", aircraft)
            .with("component", component)
            .with("part", part);
    if (part != null) {
      return Answers.page(newPage(RequirementForm.limit(form)));
    }
    boolean document = RequirementKind.DOCUMENT.word().equals(kind);
    return Answers.page(newPage(document ? RequirementForm.document(form) : form));
  }

  @POST
  @Path("requirements")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response create(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    RequirementSheet owner = owner(form);
    String subject =
        isOfComponent(owner)
            ? Subject.COMPONENT
            : form.required("subject", "About").choice(values(SUBJECTS));
    offer(owner.aircraftId()).fill(form);
    Terms terms = RequirementForm.read(form, coverable(owner));
    LocalDate from = form.required("in-force-from", "In force from").date();
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    if (form.isReady()) {
      try {
        UUID id =
            requirements.create(
                viewer,
                new NewRequirement(
                    owner.programmeId(),
                    owner.aircraftId(),
                    owner.componentId(),
                    owner.partNumber(),
                    subject,
                    terms,
                    from,
                    approvedBy,
                    form.key()));
        return Answers.see(views.link(id, owner.aircraftId(), owner.componentId()));
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, newPage(form));
  }

  @GET
  @Path("requirements/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(
      @PathParam("id") UUID id,
      @QueryParam("aircraft") UUID aircraft,
      @QueryParam("component") UUID component) {
    return Answers.page(new RequirementPage(views.seen(viewer, id, aircraft, component, now())));
  }

  @GET
  @Path("requirements/{id}/revision")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askRevision(@PathParam("id") UUID id) {
    RequirementRecords.History history = requirementRecords.history(viewer, id);
    Revision latest = history.latest();
    Effects.Told told =
        latest.withdrawn()
            ? null
            : moves(
                history,
                () -> requirements.withdraw(viewer, id, latest.id(), today(), TRIED, TRIED));
    return Answers.page(
        revisePage(
            history, RequirementForm.of(latest, today()), null, "Were it withdrawn today,", told));
  }

  @POST
  @Path("requirements/{id}/revision")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    RequirementRecords.History history = requirementRecords.history(viewer, id);
    boolean withdraw = form.checked("withdraw");
    offer(history.requirement().aircraftId()).fill(form);
    Terms terms = withdraw ? null : RequirementForm.read(form, values(nameable(history)));
    LocalDate from = form.required("in-force-from", "In force from").date();
    String reason = form.required("reason", "Reason").text(500);
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    UUID revises = form.required("revises", "What is revised").uuid();
    Runnable filing =
        () -> {
          if (withdraw) {
            requirements.withdraw(viewer, id, revises, from, reason, approvedBy);
          } else {
            requirements.revise(
                viewer, new NewRevision(id, revises, terms, from, reason, approvedBy, form.key()));
          }
        };
    if (form.isReady() && form.checked("preview")) {
      Effects.Told told = moves(history, filing);
      return Answers.page(revisePage(history, form, null, "With what is typed here,", told));
    }
    if (form.isReady()) {
      try {
        filing.run();
        return Answers.see("/requirements/" + id);
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        return stale(id, form, stale);
      }
    }
    return Answers.again(form, revisePage(history, form, null, "", null));
  }

  private Effects.Told moves(RequirementRecords.History history, Runnable filing) {
    return effects.of(viewer, history.latest().id(), carriers(history.requirement()), filing);
  }

  /** Whose figures it moves: of one for many, those of a fleet that is not too large to try. */
  private List<UUID> carriers(RequirementSheet requirement) {
    if (requirement.aircraftId() != null) {
      return List.of(requirement.aircraftId());
    }
    return fleet.sheets(viewer, now()).stream()
        .filter(sheet -> !sheet.retired())
        .map(AircraftSheet::id)
        .limit(MOST_TRIED)
        .toList();
  }

  /** Both versions are shown; sending once more revises what the other person filed. */
  private Response stale(UUID id, Form form, Stale stale) {
    RequirementRecords.History history = requirementRecords.history(viewer, id);
    form.fail("", stale.getMessage());
    form.with("revises", history.latest().id());
    return Answers.page(409, revisePage(history, form, history.latest(), "", null));
  }

  private TemplateInstance newPage(Form form) {
    RequirementSheet owner = owner(form);
    return new RequirementNew(
        views.owner(viewer, owner),
        form,
        options(requirementRecords.nameable(viewer, owner, now())),
        isOfComponent(owner) ? List.of() : SUBJECTS,
        new RuleChoices(),
        offer(owner.aircraftId()));
  }

  /** Whose the new requirement is to be. */
  private RequirementSheet owner(Form form) {
    UUID part = form.optional("part", "Part").uuid();
    return new RequirementSheet(
        null,
        form.optional("programme", "Programme").uuid(),
        form.optional("aircraft", "Aircraft").uuid(),
        form.optional("component", "Component").uuid(),
        part == null ? null : parts.history(viewer, part).get(0).partNumber(),
        null);
  }

  private static boolean isOfComponent(RequirementSheet owner) {
    return owner.componentId() != null || owner.partNumber() != null;
  }

  private TemplateInstance revisePage(
      RequirementRecords.History history,
      Form form,
      Revision theirs,
      String lead,
      Effects.Told told) {
    RequirementSheet sheet = history.requirement();
    return new RequirementRevise(
        views.owner(viewer, sheet),
        history,
        form,
        nameable(history),
        theirs,
        new RuleChoices(),
        offer(sheet.aircraftId()),
        lead,
        told);
  }

  /** By the aircraft's rule profile; of a programme or a component, by the operator's. */
  private ProfileOffer offer(UUID aircraft) {
    return new ProfileOffer(profiles.of(viewer, aircraft, now()));
  }

  private List<String> coverable(RequirementSheet owner) {
    return owner.owner() == null
        ? List.of()
        : values(options(requirementRecords.nameable(viewer, owner, now())));
  }

  private List<Option> nameable(RequirementRecords.History history) {
    return options(requirementRecords.nameable(viewer, history.requirement(), now()));
  }

  private static List<Option> options(List<RequirementRecords.History> all) {
    return all.stream()
        .map(
            one ->
                new Option(
                    one.requirement().id().toString(),
                    one.latest().terms().title(),
                    one.latest().ruleWords()))
        .toList();
  }

  private static List<String> values(List<Option> options) {
    return options.stream().map(Option::value).toList();
  }

  private static final List<Option> SUBJECTS =
      List.of(
          new Option(Subject.AIRCRAFT, "The aircraft"),
          new Option(Subject.ENGINE, "Each engine fitted"),
          new Option(Subject.PROPELLER, "Each propeller fitted"));

  private View now() {
    return View.asAt(today());
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
