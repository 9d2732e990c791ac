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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** The forms about a component; what it has run is shown by the pages of the flights. */
@Path("/components")
@RequestScoped
public class ComponentFormPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final List<Option> EVENTS =
      Stream.of(ComponentEventKind.values())
          .map(kind -> new Option(kind.word(), kind.label()))
          .toList();

  @Inject Components components;
  @Inject ComponentEvents events;
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
  record ComponentRevise(ComponentSheet component, Form form) implements TemplateInstance {}

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
  record ComponentHappened(
      ComponentSheet component,
      String state,
      Form form,
      List<Option> kinds,
      boolean engine,
      String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentMetered(ComponentSheet component, Form form, String times)
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
  @Path("{id}/particulars")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askRevision(@PathParam("id") UUID id) {
    ComponentSheet sheet = sheet(id);
    return Answers.page(
        new ComponentRevise(
            sheet,
            Form.blank()
                .with("description", sheet.description())
                .with("part-number", sheet.partNumber())
                .with("serial", sheet.serial())
                .with("manufacturer", sheet.manufacturer())
                .with("owner", sheet.owner())
                .with("seen", sheet.mark())
                .with("from", Shown.typed(viewer.dateOf(clock.instant())))));
  }

  @POST
  @Path("{id}/particulars")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    sheet(id);
    String seen = form.value("seen");
    String description = form.required("description", "Description").text(120);
    String partNumber = form.required("part-number", "Part number").text(60);
    String serial = form.required("serial", "Serial number").text(60);
    String manufacturer = form.optional("manufacturer", "Manufacturer").text(120);
    String owner = form.optional("owner", "Owner").text(120);
    LocalDate from = form.required("from", "Holds from").dateUpTo(viewer.dateOf(clock.instant()));
    String reason = form.required("reason", "Reason").text(500);
    return ComponentAnswers.filed(
        "/components/" + id,
        form,
        () ->
            components.revise(
                viewer,
                new Components.Revising(
                    id,
                    partNumber,
                    serial,
                    description,
                    orBlank(manufacturer),
                    orBlank(owner),
                    from,
                    reason,
                    seen,
                    form.key())),
        () -> revised(sheet(id), form));
  }

  /** Whoever was told of another's statement has read it when they file again. */
  private static ComponentRevise revised(ComponentSheet now, Form form) {
    return new ComponentRevise(now, form.isBad("") ? form.with("seen", now.mark()) : form);
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
    sheet(id);
    Instant at = StatedMoment.of(form, "Overhauled on", viewer, clock.instant());
    String reference = form.required("reference", "Reference").text(200);
    return ComponentAnswers.filed(
        "/components/" + id,
        form,
        () -> events.overhaul(viewer, new ComponentEvents.Overhaul(id, at, reference, form.key())),
        () -> overhaulPage(id, form));
  }

  @GET
  @Path("{id}/events")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askEvent(@PathParam("id") UUID id) {
    return Answers.page(eventPage(id, today()));
  }

  @POST
  @Path("{id}/events")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response happened(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    sheet(id);
    String kind =
        form.required("kind", "What happened").choice(EVENTS.stream().map(Option::value).toList());
    Instant at = StatedMoment.of(form, "On", viewer, clock.instant());
    String whom = form.optional("whom", "To whom, or by whom").text(120);
    String why = form.optional("why", "Why, or what was found").text(500);
    String reference = form.optional("reference", "Reference").text(200);
    boolean restarts = form.checked("restarts");
    return ComponentAnswers.filed(
        "/components/" + id,
        form,
        () ->
            events.file(
                viewer,
                new ComponentEvents.Happening(
                    id,
                    ComponentEventKind.parse(kind),
                    at,
                    orBlank(whom),
                    orBlank(why),
                    orBlank(reference),
                    restarts,
                    form.key())),
        () -> eventPage(id, form));
  }

  @GET
  @Path("{id}/meter-readings")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askReading(@PathParam("id") UUID id) {
    return Answers.page(new ComponentMetered(sheet(id), today().with("counter", "hours"), times()));
  }

  @POST
  @Path("{id}/meter-readings")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response read(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    ComponentSheet sheet = sheet(id);
    Instant at = StatedMoment.of(form, "Read on", viewer, clock.instant());
    Hours reading = form.required("reading", "Reading").hours();
    Hours replaced = form.optional("replaced-by", "New meter showed").hours();
    return ComponentAnswers.filed(
        "/components/" + id,
        form,
        () ->
            events.read(
                viewer,
                new ComponentEvents.Metered(
                    id,
                    Counter.HOURS,
                    reading.seconds(),
                    replaced == null ? null : replaced.seconds(),
                    at,
                    form.key())),
        () -> new ComponentMetered(sheet, form, times()));
  }

  private ComponentNew page(Form form) {
    return new ComponentNew(form, ComponentForm.KINDS, ComponentForm.OVERHAULED, times());
  }

  private ComponentOverhauled overhaulPage(UUID id, Form form) {
    return new ComponentOverhauled(sheet(id), form, times());
  }

  private ComponentHappened eventPage(UUID id, Form form) {
    ComponentHistory history = components.history(viewer, id, View.EVERYTHING);
    return new ComponentHappened(
        history.sheet(),
        history.state().words(),
        form,
        EVENTS,
        history.sheet().kind() == PartKind.ENGINE,
        times());
  }

  private ComponentSheet sheet(UUID id) {
    return components.history(viewer, id, View.EVERYTHING).sheet();
  }

  private static String orBlank(String text) {
    return text == null ? "" : text;
  }

  private Form today() {
    return Form.blank().with("on", Shown.typed(viewer.dateOf(clock.instant())));
  }

  private String times() {
    return viewer.timesInUtc() ? "UTC" : "local time";
  }
}
