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
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import java.util.function.Supplier;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * What an aircraft carries: modifications and repairs, equipment, empty weight; two side by side.
 */
@Path("/")
@RequestScoped
public class ConfigurationPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Fleet fleet;
  @Inject Configurations configurations;
  @Inject Views views;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(basePath = "fleet", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ConfigurationShown(
      AircraftSheet aircraft,
      AsAt at,
      Configuration configuration,
      List<Option> others,
      boolean mayFile)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "fleet", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record ModificationNew(AircraftSheet aircraft, Form form, String times, boolean revising)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "fleet", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record EquipmentNew(AircraftSheet aircraft, Form form, String times)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "fleet", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record WeightNew(AircraftSheet aircraft, Form form, String times, EmptyWeight.Line correcting)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "fleet", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record AircraftCompared(
      AircraftSheet one, AircraftSheet other, Comparison comparison, Form form, List<Option> all)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/configuration")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response configuration(@PathParam("id") UUID id, @Context UriInfo uri) {
    AsAt at = views.asked(viewer, uri.getQueryParameters());
    AircraftSheet aircraft = fleet.sheet(viewer, id, at.view());
    List<Option> others =
        offered().stream().filter(option -> !option.value().equals(id.toString())).toList();
    return Answers.page(
        at.status(),
        new ConfigurationShown(
            aircraft,
            at,
            configurations.of(viewer, id, at.isNow() ? View.EVERYTHING : at.view()),
            others,
            at.isNow() && viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)));
  }

  @GET
  @Path("aircraft/{id}/modifications/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askModification(
      @PathParam("id") UUID id, @QueryParam("modification") UUID modification) {
    Form form = today(Form.blank()).with("embodied", "yes");
    if (modification != null) {
      ConfigurationForm.fill(
          form,
          configurations.of(viewer, id, View.EVERYTHING).modifications().stream()
              .filter(mod -> mod.id().equals(modification))
              .findFirst()
              .orElseThrow(() -> new NotHere("There is no such modification here.")));
    }
    return Answers.page(modification(id, form));
  }

  @POST
  @Path("aircraft/{id}/modifications")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response fileModification(
      @PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    ModificationNew page = modification(id, form);
    var asked = ConfigurationForm.modification(form, viewer, clock.instant());
    return filed(id, form, page, () -> configurations.state(viewer, id, asked));
  }

  @GET
  @Path("aircraft/{id}/equipment/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askEquipment(@PathParam("id") UUID id, @QueryParam("equipment") UUID equipment) {
    Form form = today(Form.blank()).with("state", "fitted");
    if (equipment != null) {
      ConfigurationForm.fill(
          form,
          configurations.of(viewer, id, View.EVERYTHING).equipment().stream()
              .filter(item -> item.id().equals(equipment))
              .findFirst()
              .orElseThrow(() -> new NotHere("There is no such equipment here.")));
    }
    return Answers.page(new EquipmentNew(aircraft(id), form, times()));
  }

  @POST
  @Path("aircraft/{id}/equipment")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response fileEquipment(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    EquipmentNew page = new EquipmentNew(aircraft(id), form, times());
    var asked = ConfigurationForm.equipment(form, viewer, clock.instant());
    return filed(id, form, page, () -> configurations.state(viewer, id, asked));
  }

  @GET
  @Path("aircraft/{id}/weights/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askWeight(@PathParam("id") UUID id, @QueryParam("corrects") UUID corrects) {
    EmptyWeight weights = configurations.of(viewer, id, View.EVERYTHING).emptyWeight();
    Form form = today(Form.blank());
    if (corrects != null) {
      ConfigurationForm.fill(form, line(weights, corrects).entry());
    } else if (weights.now() == null) {
      form.with("kind", "weighing");
    } else {
      form.with("kind", "change")
          .with("weight-unit", weights.now().entry().weightUnit())
          .with("arm-unit", weights.now().entry().armUnit());
    }
    return Answers.page(weight(id, form));
  }

  @POST
  @Path("aircraft/{id}/weights")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response fileWeight(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    WeightNew page = weight(id, form);
    var asked = ConfigurationForm.weight(form, viewer, clock.instant());
    return filed(id, form, page, () -> configurations.weigh(viewer, id, asked));
  }

  @GET
  @Path("aircraft-comparison")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response comparison(@Context UriInfo uri) {
    Form form = Form.of(uri.getQueryParameters());
    List<Option> all = offered();
    UUID one = form.optional("one", "The one").uuid();
    UUID other = form.optional("other", "The other").uuid();
    if (one == null || other == null) {
      return Answers.page(new AircraftCompared(null, null, null, form, all));
    }
    AircraftSheet left = aircraft(one);
    AircraftSheet right = aircraft(other);
    var both = configurations.of(viewer, List.of(one, other), View.EVERYTHING);
    Comparison comparison = Comparison.of(both.get(one), both.get(other));
    return Answers.page(new AircraftCompared(left, right, comparison, form, all));
  }

  private Response filed(UUID id, Form form, TemplateInstance page, Supplier<UUID> filing) {
    if (form.isReady()) {
      try {
        filing.get();
        return Answers.see("/aircraft/" + id + "/configuration");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page);
      }
    }
    return Answers.again(form, page);
  }

  private ModificationNew modification(UUID id, Form form) {
    return new ModificationNew(aircraft(id), form, times(), !form.value("modification").isEmpty());
  }

  private WeightNew weight(UUID id, Form form) {
    UUID corrects = form.optional("corrects", "Entry").uuid();
    EmptyWeight weights = configurations.of(viewer, id, View.EVERYTHING).emptyWeight();
    return new WeightNew(
        aircraft(id), form, times(), corrects == null ? null : line(weights, corrects));
  }

  private static EmptyWeight.Line line(EmptyWeight weights, UUID entry) {
    return weights.lines().stream()
        .filter(line -> line.entry().id().equals(entry))
        .findFirst()
        .orElseThrow(() -> new Stale("Someone corrected this entry since you opened this form."));
  }

  private AircraftSheet aircraft(UUID id) {
    return fleet.sheet(viewer, id, View.EVERYTHING);
  }

  private List<Option> offered() {
    return fleet.sheets(viewer, View.EVERYTHING).stream()
        .map(sheet -> new Option(sheet.id().toString(), sheet.registration()))
        .toList();
  }

  private Form today(Form form) {
    return form.with("on", Shown.typed(viewer.dateOf(clock.instant())));
  }

  private String times() {
    return viewer.timesInUtc() ? "UTC" : "local time";
  }
}
