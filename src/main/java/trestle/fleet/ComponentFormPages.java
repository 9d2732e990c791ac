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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Consumer;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** The forms about a component; what it has run is shown by the pages of the flights. */
@Path("/components")
@RequestScoped
public class ComponentFormPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Components components;
  @Inject Fitments fitments;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentNew(Form form, List<Option> kinds, List<Option> overhauled, String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentFit(
      ComponentSheet component, Form form, List<Option> places, Fitting fitted, String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentRemove(
      ComponentSheet component, Form form, Fitting fitted, String registration, String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentOverhauled(ComponentSheet component, Form form, String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentCorrection(
      ComponentSheet component, Form form, String what, String onFile, String times)
      implements TemplateInstance {}

  @GET
  @Path("new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask() {
    return Answers.page(page(today().with("kind", "engine").with("overhauled", "never")));
  }

  @POST
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response register(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Components.Registering asked = ComponentForm.read(form, viewer, clock.instant());
    if (form.isReady()) {
      try {
        return Answers.see("/components/" + components.register(viewer, asked));
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(form));
  }

  @GET
  @Path("{id}/fitments")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askFit(@PathParam("id") UUID id, @QueryParam("place") String place) {
    return Answers.page(fitPage(id, today().with("place", place)));
  }

  @POST
  @Path("{id}/fitments")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response fit(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    List<Option> places = places(components.history(viewer, id, View.EVERYTHING).sheet().kind());
    String place =
        form.required("place", "Position").choice(places.stream().map(Option::value).toList());
    Instant at = StatedMoment.of(form, "Fitted on", viewer, clock.instant());
    return filed(
        id,
        form,
        () ->
            fitments.fit(
                viewer,
                new Fitments.Fit(
                    id,
                    UUID.fromString(place.substring(0, 36)),
                    place.substring(37),
                    at,
                    form.key())),
        () -> fitPage(id, form));
  }

  @GET
  @Path("{id}/removals")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askRemoval(@PathParam("id") UUID id) {
    return Answers.page(removePage(id, today()));
  }

  @POST
  @Path("{id}/removals")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response remove(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    components.history(viewer, id, View.EVERYTHING);
    UUID fitment = form.required("fitment", "Fitment").uuid();
    Instant at = StatedMoment.of(form, "Removed on", viewer, clock.instant());
    String why = form.optional("why", "Why").text(500);
    return filed(
        id,
        form,
        () ->
            fitments.remove(
                viewer,
                new Fitments.Remove(
                    fitment, at, why == null ? "" : why, form.checked("scheduled"), form.key())),
        () -> removePage(id, form));
  }

  @GET
  @Path("{id}/overhauls")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askOverhaul(@PathParam("id") UUID id) {
    return Answers.page(overhaulPage(id, today()));
  }

  @POST
  @Path("{id}/overhauls")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response overhaul(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    components.history(viewer, id, View.EVERYTHING);
    Instant at = StatedMoment.of(form, "Overhauled on", viewer, clock.instant());
    String reference = form.required("reference", "Reference").text(200);
    return filed(
        id,
        form,
        () -> fitments.overhaul(viewer, new Fitments.Overhaul(id, at, reference, form.key())),
        () -> overhaulPage(id, form));
  }

  @GET
  @Path("{id}/corrections/{record}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askCorrection(@PathParam("id") UUID id, @PathParam("record") UUID record) {
    Correctable correctable =
        correctable(id, record)
            .orElseThrow(
                () ->
                    new NotHere(
                        "There is no such record of this component, or it was corrected already."));
    Form form =
        Form.blank()
            .with("on", Shown.date(correctable.at().atZone(viewer.flightZone()).toLocalDate()))
            .with("time", Shown.time(correctable.at(), viewer.flightZone()));
    return Answers.page(correctionPage(id, correctable, form));
  }

  @POST
  @Path("{id}/corrections/{record}")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response correct(
      @PathParam("id") UUID id,
      @PathParam("record") UUID record,
      MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Correctable correctable = correctableOrOvertaken(id, record);
    Instant at = StatedMoment.of(form, "On", viewer, clock.instant());
    String reason = form.required("reason", "Reason").text(500);
    return filed(
        id,
        form,
        () ->
            correctable
                .correct()
                .accept(
                    new Fitments.Correcting(record, at, form.checked("void"), reason, form.key())),
        () -> correctionPage(id, correctable, form));
  }

  /** Files what was read, or shows the form again. */
  private Response filed(
      UUID id, Form form, Runnable file, java.util.function.Supplier<TemplateInstance> page) {
    if (form.isReady()) {
      try {
        file.run();
        return Answers.see("/components/" + id);
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page.get());
      }
    }
    return Answers.again(form, page.get());
  }

  /** A fitment, removal or overhaul of this component, and what puts it right. */
  private record Correctable(
      String what, Instant at, String onFile, Consumer<Fitments.Correcting> correct) {}

  /** Somebody may have corrected it while this form was open: it is shown again, with theirs. */
  private Correctable correctableOrOvertaken(UUID id, UUID record) {
    Optional<Correctable> stands = correctable(id, record);
    if (stands.isPresent()) {
      return stands.get();
    }
    Components.Overtaken overtaken =
        components
            .overtaken(viewer, id, record)
            .orElseThrow(() -> new NotHere("There is no such record of this component."));
    return correctable(
        overtaken.what(),
        overtaken.at(),
        "corrected by somebody else since",
        asked -> {
          throw new Stale(
              "Someone corrected this record since you opened this form. Look at the component’s"
                  + " history, and correct what stands there.");
        });
  }

  private Optional<Correctable> correctable(UUID id, UUID record) {
    ComponentHistory history = components.history(viewer, id, View.EVERYTHING);
    for (Fitting fitting : history.fittings()) {
      String place = registration(fitting.aircraftId()) + ", " + fitting.positionLabel();
      if (fitting.fitmentId().equals(record)) {
        return Optional.of(
            correctable(
                "fitment", fitting.from(), place, asked -> fitments.correctFitment(viewer, asked)));
      }
      if (record.equals(fitting.removalId())) {
        return Optional.of(
            correctable(
                "removal", fitting.to(), place, asked -> fitments.correctRemoval(viewer, asked)));
      }
    }
    for (ComponentHistory.Overhaul overhaul : history.overhauls()) {
      if (overhaul.id().equals(record)) {
        return Optional.of(
            correctable(
                "overhaul",
                overhaul.at(),
                overhaul.reference(),
                asked -> fitments.correctOverhaul(viewer, asked)));
      }
    }
    return Optional.empty();
  }

  private Correctable correctable(
      String what, Instant at, String words, Consumer<Fitments.Correcting> correct) {
    return new Correctable(what, at, Shown.moment(at, viewer.flightZone()) + ", " + words, correct);
  }

  private ComponentNew page(Form form) {
    return new ComponentNew(form, ComponentForm.KINDS, ComponentForm.OVERHAULED, times());
  }

  private ComponentFit fitPage(UUID id, Form form) {
    ComponentHistory history = components.history(viewer, id, View.EVERYTHING);
    return new ComponentFit(
        history.sheet(), form, places(history.sheet().kind()), history.fitted(), times());
  }

  private ComponentRemove removePage(UUID id, Form form) {
    ComponentHistory history = components.history(viewer, id, View.EVERYTHING);
    Fitting fitted = history.fitted();
    if (fitted != null && form.value("fitment").isEmpty()) {
      form.with("fitment", fitted.fitmentId());
    }
    return new ComponentRemove(
        history.sheet(),
        form,
        fitted,
        fitted == null ? "" : registration(fitted.aircraftId()),
        times());
  }

  private ComponentOverhauled overhaulPage(UUID id, Form form) {
    return new ComponentOverhauled(
        components.history(viewer, id, View.EVERYTHING).sheet(), form, times());
  }

  private ComponentCorrection correctionPage(UUID id, Correctable correctable, Form form) {
    return new ComponentCorrection(
        components.history(viewer, id, View.EVERYTHING).sheet(),
        form,
        correctable.what(),
        correctable.onFile(),
        times());
  }

  /** Every position of this kind of the operator's aircraft, and what is in it now. */
  private List<Option> places(PartKind kind) {
    List<AircraftSheet> aircraft =
        fleet.sheets(viewer, View.EVERYTHING).stream().filter(each -> !each.retired()).toList();
    List<UUID> ids = aircraft.stream().map(AircraftSheet::id).toList();
    Map<UUID, List<Position>> positions = fleet.positions(viewer, ids, View.EVERYTHING);
    Map<UUID, List<Fitting>> fittings = components.fittings(viewer, ids, View.EVERYTHING);
    List<Option> places = new ArrayList<>();
    for (AircraftSheet each : aircraft) {
      for (Position position : positions.getOrDefault(each.id(), List.of())) {
        if (position.kind() == kind) {
          places.add(
              new Option(
                  each.id() + "/" + position.code(),
                  each.registration()
                      + ", "
                      + position.label()
                      + in(fittings.getOrDefault(each.id(), List.of()), position)));
        }
      }
    }
    return places;
  }

  private static String in(List<Fitting> fittings, Position position) {
    return fittings.stream()
        .filter(fitting -> fitting.isFitted() && fitting.positionCode().equals(position.code()))
        .map(fitting -> " (serial " + fitting.serial() + " is fitted)")
        .findFirst()
        .orElse("");
  }

  private String registration(UUID aircraftId) {
    return fleet.sheet(viewer, aircraftId, View.EVERYTHING).registration();
  }

  private Form today() {
    return Form.blank().with("on", Shown.date(viewer.dateOf(clock.instant())));
  }

  private String times() {
    return viewer.timesInUtc() ? "UTC" : "local time";
  }
}
