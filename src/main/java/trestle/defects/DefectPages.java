package trestle.defects;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.HeaderParam;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.Views;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.OutboxJson;
import trestle.web.Pager;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Sender;
import trestle.web.Stale;
import trestle.web.Upload;
import trestle.web.Viewer;

/**
 * Defects: reporting one, the engineer's list, an aircraft's list, and each by itself. A report is
 * kept on the phone like that of a flight (see assets/outbox.js), which asks for its answer as
 * JSON.
 */
@Path("/")
@RequestScoped
public class DefectPages {
  @Inject Defects defects;
  @Inject DefectBook book;
  @Inject Repeats repeats;
  @Inject Photos photos;
  @Inject Worklist worklist;
  @Inject Occurrences occurrences;
  @Inject AbnormalEvents events;
  @Inject Fleet fleet;
  @Inject Views views;
  @Inject Components components;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * @param filesLost whether photos that were chosen are not on this page any more
   * @param filed what this form has filed before, when it is sent with other content; else null
   * @param zone in which its date is: a kept page begins with today's date there
   */
  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DefectNew(
      AircraftSheet aircraft,
      List<Option> fleet,
      DefectForm f,
      Form form,
      boolean filesLost,
      DefectSheet filed,
      String zone)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DefectList(
      AsAt at, List<Worklist.Group> groups, long open, boolean mayReport, boolean mayWork)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record AircraftDefects(
      AircraftSheet aircraft,
      AsAt at,
      List<DefectWords.Row> open,
      List<DefectWords.Row> rectified,
      List<EventEntry> events,
      Pager pager,
      boolean mayReport)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DefectPage(
      AircraftSheet aircraft,
      DefectBook.Entry entry,
      DefectWords words,
      List<DefectWords.Version> versions,
      List<Earlier> earlier,
      List<Occurrences.Line> occurrences,
      boolean justFiled,
      boolean mayReport,
      boolean mayWork,
      boolean mayFollow,
      boolean mayTranscribe,
      boolean mayDefer)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ChapterList(Form form, String asked, List<Chapter> chapters) implements TemplateInstance {}

  @GET
  @Path("defects")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response list(@Context UriInfo uri) {
    AsAt at = at(uri);
    List<Worklist.Group> groups = worklist.of(viewer, at);
    long open = groups.stream().mapToLong(Worklist.Group::size).sum();
    return Answers.page(
        at.status(), new DefectList(at, groups, open, mayReport(), viewer.is(Role.ENGINEER)));
  }

  @GET
  @Path("defects/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@QueryParam("aircraft") UUID aircraftId, @QueryParam("place") String place) {
    AircraftSheet aircraft =
        aircraftId == null ? null : fleet.sheet(viewer, aircraftId, View.EVERYTHING);
    Form form = DefectForm.blank(viewer, clock.instant()).with("place", place);
    return Answers.page(page(aircraft, form(form, aircraft), false, null));
  }

  @POST
  @Path("defects")
  @Consumes({MediaType.MULTIPART_FORM_DATA, MediaType.APPLICATION_FORM_URLENCODED})
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response file(@HeaderParam("Accept") String accept) {
    Upload upload = Upload.ofRequest();
    Form form = Form.of(upload.fields());
    UUID aircraftId = form.required("aircraft", "Aircraft").uuid();
    AircraftSheet aircraft =
        aircraftId == null ? null : fleet.sheet(viewer, aircraftId, View.EVERYTHING);
    DefectForm read = form(form, aircraft);
    DefectDraft draft = read.read();
    boolean json = OutboxJson.isAsked(accept);
    if (!Sender.of(viewer).wrote(form)) {
      return again(403, json, aircraft, read);
    }
    if (form.isReady()) {
      try {
        List<PhotoDraft> pictures = photos.prepare(viewer, upload.files(Photos.FIELD));
        return done(json, defects.report(viewer, aircraftId, draft, pictures, null, form.key()));
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return again(409, json, aircraft, read);
      }
    }
    return again(form.isBad() ? 422 : 200, json, aircraft, read);
  }

  @GET
  @Path("defects/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @QueryParam("filed") String filed) {
    DefectBook.Entry entry = book.entry(viewer, id);
    DefectSheet now = entry.current();
    AircraftSheet aircraft = fleet.sheet(viewer, now.aircraftId(), View.EVERYTHING);
    DefectWords words = words(aircraft);
    return Answers.page(
        new DefectPage(
            aircraft,
            entry,
            words,
            words.versions(entry),
            repeats.of(viewer, List.of(now.entryId())).getOrDefault(now.entryId(), List.of()),
            occurrences.of(viewer, now.entryId()),
            filed != null,
            mayReport(),
            viewer.is(Role.ENGINEER),
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER),
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER),
            viewer.isAny(Role.ENGINEER, Role.PILOT)));
  }

  @GET
  @Path("aircraft/{id}/defects")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response ofAircraft(
      @PathParam("id") UUID id, @QueryParam("page") Integer asked, @Context UriInfo uri) {
    AsAt at = at(uri);
    View view = at.isNow() ? View.EVERYTHING : at.view();
    AircraftSheet aircraft = fleet.sheet(viewer, id, view);
    DefectWords words = words(aircraft);
    DefectBook.Page page = book.page(viewer, id, true, asked == null ? 1 : asked, view);
    return Answers.page(
        at.status(),
        new AircraftDefects(
            aircraft,
            at,
            worklist.ofAircraft(viewer, aircraft, at),
            page.entries().stream().map(words::closed).toList(),
            events.of(viewer, id, view),
            Pager.of(page.number(), DefectBook.PAGE, page.defects(), uri),
            mayReport()));
  }

  @GET
  @Path("chapters")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response chapters(@QueryParam("asked") String asked) {
    String typed = asked == null ? "" : asked.strip();
    return Answers.page(
        new ChapterList(
            Form.blank().with("asked", typed),
            typed,
            typed.isEmpty() ? Chapters.all() : Chapters.search(typed)));
  }

  private static Response done(boolean json, Defects.Reported filed) {
    String link = "/defects/" + filed.entryId() + "?filed=1";
    return json ? OutboxJson.received("defect", filed.number(), link) : Answers.see(link);
  }

  private Response again(int status, boolean json, AircraftSheet aircraft, DefectForm read) {
    Form form = read.form();
    DefectSheet filed = status == 409 ? book.ofForm(viewer, form.key()).orElse(null) : null;
    return json
        ? OutboxJson.problem(status, form, false, filed == null ? null : filed.link())
        : Answers.page(status, page(aircraft, read, !form.resumed(), filed));
  }

  private DefectForm form(Form form, AircraftSheet aircraft) {
    return new DefectForm(form, viewer, clock.instant(), fitted(aircraft));
  }

  private List<Fitting> fitted(AircraftSheet aircraft) {
    if (aircraft == null) {
      return List.of();
    }
    return components
        .fittings(viewer, List.of(aircraft.id()), View.asAt(today()))
        .getOrDefault(aircraft.id(), List.of());
  }

  private DefectNew page(
      AircraftSheet aircraft, DefectForm read, boolean filesLost, DefectSheet filed) {
    List<Option> all = DefectForm.aircraft(fleet.sheets(viewer, View.asAt(today())));
    return new DefectNew(aircraft, all, read, read.form(), filesLost, filed, viewer.zone().getId());
  }

  private DefectWords words(AircraftSheet aircraft) {
    return new DefectWords(viewer, members.names(viewer), parts(aircraft));
  }

  private Map<UUID, String> parts(AircraftSheet aircraft) {
    Map<UUID, String> parts = new HashMap<>();
    for (Fitting fitting :
        components
            .fittings(viewer, List.of(aircraft.id()), View.EVERYTHING)
            .getOrDefault(aircraft.id(), List.of())) {
      parts.put(
          fitting.componentId(),
          fitting.description() + ", " + fitting.partNumber() + " serial " + fitting.serial());
    }
    return parts;
  }

  private boolean mayReport() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.PILOT, Role.ENGINEER);
  }

  private AsAt at(UriInfo uri) {
    return views.asked(viewer, uri.getQueryParameters());
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
