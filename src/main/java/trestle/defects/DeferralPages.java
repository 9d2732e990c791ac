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
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.Views;
import trestle.ledger.View;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfile.Route;
import trestle.profiles.RuleProfiles;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Role;
import trestle.web.Viewer;

/** Deferring a defect, copying a deferral from old papers, putting either right, what stands. */
@Path("/")
@RequestScoped
public class DeferralPages {
  @Inject Deferrals deferrals;
  @Inject DefectBook book;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Views views;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject IdentityProof identity;
  @Inject Viewer viewer;

  /**
   * @param corrects whether a deferral is put right
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
      boolean corrects,
      String action,
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
      AsAt at,
      AircraftSheet aircraft,
      Deferrals.Entry entry,
      List<DeferralWords.Fact> facts,
      List<ExtensionLine> extensions,
      boolean runOut,
      boolean mayExtend,
      boolean mayCorrect)
      implements TemplateInstance {}

  @GET
  @Path("defects/{id}/deferral")
  @RolesAllowed({Allow.ENGINEER, Allow.PILOT})
  public Response ask(@PathParam("id") UUID id, @QueryParam("route") String asked) {
    DefectSheet defect = book.entry(viewer, id).current();
    Route route = route(asked, profile(defect));
    Form form = Form.blank().with("on", today()).with("route", route.word());
    DeferralForm read = form(form, route, false, defect);
    form.with("by", read.bys().get(0).value());
    if (!read.licences().isEmpty()) {
      form.with("licence", read.licences().get(0).number());
    }
    return Answers.page(page(defect, read, null));
  }

  @POST
  @Path("defects/{id}/deferral")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.ENGINEER, Allow.PILOT})
  public Response defer(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    DefectSheet defect = book.entry(viewer, id).current();
    DeferralForm read = read(form, false, defect);
    NewDeferral draft = read.read(defect.entryId());
    return Answers.filing(
        form,
        () -> "/deferrals/" + deferrals.defer(viewer, prove(form), draft, form.key()),
        () -> page(defect, read, null));
  }

  @GET
  @Path("defects/{id}/deferral-transcription")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askTranscription(@PathParam("id") UUID id, @QueryParam("route") String asked) {
    DefectSheet defect = book.entry(viewer, id).current();
    Route route = Route.NO_LIST.word().equals(asked) ? Route.NO_LIST : Route.MINIMUM_EQUIPMENT_LIST;
    Form form = Form.blank().with("route", route.word()).with("by", Role.ENGINEER.word());
    return Answers.page(page(defect, form(form, route, true, defect), null));
  }

  @POST
  @Path("defects/{id}/deferral-transcription")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response transcribe(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    DefectSheet defect = book.entry(viewer, id).current();
    DeferralForm read = read(form, true, defect);
    NewDeferral draft = read.read(defect.entryId());
    OldPaper paper = read.paper();
    return Answers.filing(
        form,
        () -> "/deferrals/" + deferrals.transcribe(viewer, draft, paper, form.key()),
        () -> page(defect, read, null));
  }

  @GET
  @Path("deferrals/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @Context UriInfo uri) {
    AsAt at = views.asked(viewer, uri.getQueryParameters());
    Deferrals.Entry entry = deferrals.entry(viewer, id, at.view());
    Map<UUID, String> names = members.names(viewer);
    DeferralSheet deferral = entry.deferral();
    boolean listed = deferral.category() != null;
    boolean open = at.isNow() && entry.stands();
    return Answers.page(
        at.status(),
        new DeferralPage(
            at,
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
            open && listed && viewer.isAny(Role.ENGINEER, Role.CONTROLLER),
            open
                && deferral.extensions().isEmpty()
                && (deferral.isTranscribed()
                    ? viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)
                    : viewer.isAny(Role.ENGINEER, Role.PILOT))));
  }

  @GET
  @Path("deferrals/{id}/correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER, Allow.PILOT})
  public Response askCorrection(@PathParam("id") UUID id) {
    DeferralSheet deferral = deferrals.entry(viewer, id).deferral();
    DefectSheet defect = book.entry(viewer, deferral.defectEntryId()).current();
    Form form = DeferralForm.of(deferral);
    return Answers.page(
        page(defect, form(form, deferral.route(), deferral.isTranscribed(), defect), id));
  }

  @POST
  @Path("deferrals/{id}/correction")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER, Allow.PILOT})
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    DeferralSheet deferral = deferrals.entry(viewer, id).deferral();
    DefectSheet defect = book.entry(viewer, deferral.defectEntryId()).current();
    DeferralForm read = read(form, deferral.isTranscribed(), defect);
    NewDeferral draft = read.read(defect.entryId());
    OldPaper paper = deferral.isTranscribed() ? read.paper() : null;
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () ->
            "/deferrals/"
                + (paper == null
                    ? deferrals.correct(viewer, prove(form), id, draft, reason, form.key())
                    : deferrals.correct(viewer, id, draft, paper, reason, form.key())),
        () -> page(defect, read, id));
  }

  private Proof prove(Form form) {
    return identity.prove(viewer, form.value("password"));
  }

  private TemplateInstance page(DefectSheet defect, DeferralForm read, UUID corrects) {
    RuleProfile profile = profile(defect);
    Route other = read.route() == Route.NO_LIST ? Route.MINIMUM_EQUIPMENT_LIST : Route.NO_LIST;
    return new DeferralNew(
        aircraft(defect),
        defect,
        read,
        read.form(),
        corrects != null,
        corrects == null
            ? defect.link() + (read.old() ? "/deferral-transcription" : "/deferral")
            : "/deferrals/" + corrects + "/correction",
        read.old() || open(other, profile) ? other.word() : null,
        read.old() ? "" : refused(read.route(), profile),
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

  private DeferralForm read(Form form, boolean old, DefectSheet defect) {
    Route route = form.required("route", "Route").choice(Route.class);
    return form(form, route == null ? Route.MINIMUM_EQUIPMENT_LIST : route, old, defect);
  }

  private DeferralForm form(Form form, Route route, boolean old, DefectSheet defect) {
    return new DeferralForm(
        form,
        route,
        old,
        viewer,
        clock.instant(),
        route == Route.NO_LIST
            ? deferrals.inspections(viewer, defect.aircraftId(), today())
            : List.of(),
        old ? List.of() : members.one(viewer, viewer.personId()).licences());
  }

  private RuleProfile profile(DefectSheet defect) {
    return profiles.of(viewer, defect.aircraftId(), View.asAt(today()));
  }

  private AircraftSheet aircraft(DefectSheet defect) {
    return fleet.sheet(viewer, defect.aircraftId(), View.EVERYTHING);
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
