package trestle.defects;

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
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfile.Route;
import trestle.profiles.RuleProfiles;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Deferring a defect, putting that right, extending it, and what stands. */
@Path("/")
@RequestScoped
public class DeferralPages {
  @Inject Deferrals deferrals;
  @Inject DeferralExtensions extensions;
  @Inject DefectBook book;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject IdentityProof identity;
  @Inject Viewer viewer;

  /**
   * @param corrects the deferral that is put right, or null
   * @param other the other route where it is open to the viewer too, or null
   * @param refused why this route is not open to the viewer, or ""
   */
  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DeferralNew(
      AircraftSheet aircraft,
      DefectSheet defect,
      DeferralForm f,
      Form form,
      UUID corrects,
      String other,
      String refused,
      RuleProfile profile,
      String statement)
      implements TemplateInstance {}

  record ExtensionLine(LocalDate on, List<DeferralWords.Fact> facts) {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DeferralPage(
      AircraftSheet aircraft,
      Deferrals.Entry entry,
      List<DeferralWords.Fact> facts,
      List<ExtensionLine> extensions,
      boolean runOut,
      boolean mayExtend,
      boolean mayCorrect)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DeferralExtend(
      AircraftSheet aircraft, Deferrals.Entry entry, Form form, String atLatest, String toldWithin)
      implements TemplateInstance {}

  @GET
  @Path("defects/{id}/deferral")
  @RolesAllowed({Allow.ENGINEER, Allow.PILOT})
  public Response ask(@PathParam("id") UUID id, @QueryParam("route") String asked) {
    DefectSheet defect = book.entry(viewer, id).current();
    RuleProfile profile = profile(defect);
    Route route = route(asked, profile);
    Form form = Form.blank().with("on", today()).with("route", route.word());
    DeferralForm read = form(form, route, defect);
    form.with("by", read.bys().get(0).value());
    if (!read.licences().isEmpty()) {
      form.with("licence", read.licences().get(0).number());
    }
    return Answers.page(page(defect, read, null, profile));
  }

  @POST
  @Path("defects/{id}/deferral")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.ENGINEER, Allow.PILOT})
  public Response defer(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    DefectSheet defect = book.entry(viewer, id).current();
    DeferralForm read = read(form, defect);
    NewDeferral draft = read.read(defect.entryId());
    int status = 422;
    if (form.isReady()) {
      try {
        Proof proof = identity.prove(viewer, form.value("password"));
        return Answers.see("/deferrals/" + deferrals.defer(viewer, proof, draft, form.key()));
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        status = 409;
        form.fail("", stale.getMessage());
      }
    }
    return Answers.page(form.isBad() ? status : 200, page(defect, read, null, profile(defect)));
  }

  @GET
  @Path("deferrals/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    Deferrals.Entry entry = deferrals.entry(viewer, id);
    Map<UUID, String> names = names();
    DeferralSheet deferral = entry.deferral();
    boolean listed = deferral.category() != null;
    return Answers.page(
        new DeferralPage(
            aircraft(entry.defect()),
            entry,
            DeferralWords.facts(
                entry.defect(), deferral, entry.item(), names.get(deferral.recordedBy())),
            deferral.extensions().stream()
                .map(
                    one ->
                        new ExtensionLine(
                            one.on(), DeferralWords.facts(one, names.get(one.recordedBy()))))
                .toList(),
            entry.item() != null && entry.item().reckoning().spent(),
            entry.stands() && listed && viewer.isAny(Role.ENGINEER, Role.CONTROLLER),
            entry.stands()
                && deferral.extensions().isEmpty()
                && viewer.isAny(Role.ENGINEER, Role.PILOT)));
  }

  @GET
  @Path("deferrals/{id}/correction")
  @RolesAllowed({Allow.ENGINEER, Allow.PILOT})
  public Response askCorrection(@PathParam("id") UUID id) {
    Deferrals.Entry entry = deferrals.entry(viewer, id);
    DefectSheet defect = entry.defect();
    Form form = DeferralForm.of(entry.deferral());
    return Answers.page(
        page(
            defect,
            form(form, entry.deferral().route(), defect),
            entry.deferral().id(),
            profile(defect)));
  }

  @POST
  @Path("deferrals/{id}/correction")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.ENGINEER, Allow.PILOT})
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    DefectSheet defect = deferrals.entry(viewer, id).defect();
    DeferralForm read = read(form, defect);
    NewDeferral draft = read.read(defect.entryId());
    String reason = form.required("reason", "Reason").text(500);
    int status = 422;
    if (form.isReady()) {
      try {
        Proof proof = identity.prove(viewer, form.value("password"));
        return Answers.see(
            "/deferrals/" + deferrals.correct(viewer, proof, id, draft, reason, form.key()));
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        status = 409;
        form.fail("", stale.getMessage());
      }
    }
    return Answers.page(form.isBad() ? status : 200, page(defect, read, id, profile(defect)));
  }

  @GET
  @Path("deferrals/{id}/extension")
  @RolesAllowed({Allow.ENGINEER, Allow.CONTROLLER})
  public Response askExtension(@PathParam("id") UUID id) {
    Deferrals.Entry entry = deferrals.entry(viewer, id);
    Form form =
        Form.blank()
            .with("on", today())
            .with("new-last-day", DeferralWords.latest(entry.deferral()));
    return Answers.page(page(entry, form));
  }

  @POST
  @Path("deferrals/{id}/extension")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.ENGINEER, Allow.CONTROLLER})
  public Response extend(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Deferrals.Entry entry = deferrals.entry(viewer, id);
    LocalDate newLastDay = form.required("new-last-day", "New last day").date();
    String why = form.required("why", "Why").text(1000);
    String where = form.required("unserviceable-at", "Where it became unserviceable").text(120);
    String part = form.optional("part-number", "Part number").text(60);
    LocalDate ordered = form.optional("ordered-on", "Ordered on").date();
    LocalDate delivery = form.optional("delivery-on", "First delivery").date();
    Instant at = StatedMoment.of(form, "Granted on", viewer, clock.instant());
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    String reference = form.required("reference", "Reference").text(200);
    LocalDate told = form.optional("told-on", "Authority told on").dateUpTo(today());
    int status = 422;
    if (form.isReady()) {
      try {
        extensions.extend(
            viewer,
            new NewDeferralExtension(
                id,
                at,
                newLastDay,
                where,
                why,
                part == null ? "" : part,
                ordered,
                delivery,
                approvedBy,
                reference,
                told),
            form.key());
        return Answers.see("/deferrals/" + id);
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        status = 409;
        form.fail("", stale.getMessage());
      }
    }
    return Answers.page(form.isBad() ? status : 200, page(entry, form));
  }

  private TemplateInstance page(Deferrals.Entry entry, Form form) {
    LocalDate latest = DeferralWords.latest(entry.deferral());
    Integer hours = profile(entry.defect()).extensionNoticeHours();
    return new DeferralExtend(
        aircraft(entry.defect()),
        entry,
        form,
        latest == null ? "Like 25 Nov 2026" : "At the latest " + Shown.date(latest),
        (hours == null ? "" : "Within " + Shown.plural(hours, "hour") + " by the rule profile. ")
            + "Left blank: not yet");
  }

  private TemplateInstance page(
      DefectSheet defect, DeferralForm read, UUID corrects, RuleProfile profile) {
    Route other = read.route() == Route.NO_LIST ? Route.MINIMUM_EQUIPMENT_LIST : Route.NO_LIST;
    return new DeferralNew(
        aircraft(defect),
        defect,
        read,
        read.form(),
        corrects,
        open(other, profile) ? other.word() : null,
        refused(read.route(), profile),
        profile,
        Certifying.DEFERRED);
  }

  private String refused(Route route, RuleProfile profile) {
    if (open(route, profile)) {
      return "";
    }
    String way = route == Route.NO_LIST ? "without a list" : "by an item of a list";
    return profile.allows(route)
        ? "You may not defer " + way + " under this operator’s rule profile."
        : "Nothing is deferred " + way + " under this operator’s rule profile.";
  }

  private boolean open(Route route, RuleProfile profile) {
    return profile.mayDefer(route).stream().anyMatch(viewer::is);
  }

  /** The one asked for, else the first that is open to the viewer. */
  private Route route(String asked, RuleProfile profile) {
    return Stream.of(Route.values())
        .filter(route -> asked == null ? open(route, profile) : route.word().equals(asked))
        .findFirst()
        .orElse(Route.MINIMUM_EQUIPMENT_LIST);
  }

  private DeferralForm read(Form form, DefectSheet defect) {
    Route route = form.required("route", "Route").choice(Route.class);
    return form(form, route == null ? Route.MINIMUM_EQUIPMENT_LIST : route, defect);
  }

  private DeferralForm form(Form form, Route route, DefectSheet defect) {
    return new DeferralForm(
        form,
        route,
        viewer,
        clock.instant(),
        route == Route.NO_LIST
            ? deferrals.inspections(viewer, defect.aircraftId(), today())
            : List.of(),
        members.one(viewer, viewer.personId()).licences());
  }

  private RuleProfile profile(DefectSheet defect) {
    return profiles.of(viewer, defect.aircraftId(), View.asAt(today()));
  }

  private AircraftSheet aircraft(DefectSheet defect) {
    return fleet.sheet(viewer, defect.aircraftId(), View.EVERYTHING);
  }

  private Map<UUID, String> names() {
    return members.all(viewer).stream()
        .collect(Collectors.toMap(Members.Member::personId, Members.Member::name));
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
