package trestle.flights;

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
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.PartKind;
import trestle.fleet.Position;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What is in tanks and engines, how it agrees with what was flown, and how it is arranged. */
@Path("/")
@RequestScoped
public class FuelAndOilPages {
  @Inject FuelAndOil fluids;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(basePath = "flights", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record FuelAndOilPage(
      AircraftSheet aircraft,
      FluidArrangement arrangement,
      List<Fact> left,
      List<Reading> readings,
      List<Oil> oils,
      boolean mayArrange,
      boolean mayCorrect)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "flights", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record FuelArrangementNew(
      AircraftSheet aircraft,
      Form form,
      List<Position> engines,
      List<Option> scales,
      FluidArrangement onFile,
      boolean stale)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "flights",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record FluidCorrection(
      AircraftSheet aircraft, Form form, FluidForm fluids, UUID reading, String on, String onFile)
      implements TemplateInstance {}

  /** What is left in one place, in words. */
  record Fact(String name, String value) {}

  /** A reading in words; each comparison a sentence. */
  record Reading(
      UUID id, String at, UUID flight, String what, List<Sentence> fuel, String remark) {}

  record Sentence(String words, boolean agrees) {}

  /** What an engine used, in words, and drawn. */
  record Oil(String label, String limit, OilChart chart, List<OilLine> lines) {}

  record OilLine(String at, String level, String used, String wash) {}

  @GET
  @Path("aircraft/{id}/fuel-and-oil")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all(@PathParam("id") UUID id) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, now());
    FluidArrangement arrangement = fluids.arrangement(viewer, id, now());
    Map<String, String> labels = new HashMap<>();
    engines(id).forEach(engine -> labels.put(engine.code(), engine.label()));
    FluidWords words = new FluidWords(arrangement, labels);
    List<Oil> oils = new ArrayList<>();
    fluids
        .oilSeries(viewer, id, now())
        .forEach((position, series) -> oils.add(oil(arrangement, words, position, series)));
    return Answers.page(
        new FuelAndOilPage(
            aircraft,
            arrangement,
            left(fluids.state(viewer, id, now())),
            fluids.compared(viewer, id, now()).stream().map(each -> reading(words, each)).toList(),
            oils,
            mayArrange(),
            viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.PILOT, Role.ENGINEER)));
  }

  @GET
  @Path("aircraft/{id}/fuel-and-oil/arrangement")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response askArrangement(@PathParam("id") UUID id) {
    FluidArrangement arrangement = fluids.arrangement(viewer, id, now());
    return Answers.page(page(id, FluidArrangementForm.filled(arrangement), arrangement, false));
  }

  @POST
  @Path("aircraft/{id}/fuel-and-oil/arrangement")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response arrange(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    FluidArrangement onFile = fluids.arrangement(viewer, id, now());
    FluidArrangement stated = FluidArrangementForm.read(form, onFile.unit(), engines(id));
    String reason =
        onFile.isStated()
            ? form.required("reason", "Reason").text(500)
            : form.optional("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        fluids.arrange(viewer, id, stated, reason, form.key());
        return Answers.see("/aircraft/" + id + "/fuel-and-oil");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page(id, form, onFile, true));
      }
    }
    return Answers.again(form, page(id, form, onFile, false));
  }

  @GET
  @Path("fuel-and-oil/{id}/correction")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response askCorrection(@PathParam("id") UUID id) {
    FluidReading reading = fluids.reading(viewer, id);
    return Answers.page(correction(reading, FluidForm.filled(reading.draft())));
  }

  @POST
  @Path("fuel-and-oil/{id}/correction")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response correct(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    FluidReading reading = fluids.reading(viewer, id);
    Form form = Form.of(posted);
    FluidCorrection page = correction(reading, form);
    FluidDraft draft = page.fluids().read();
    String reason = form.required("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        fluids.correct(viewer, id, draft, reason, form.key());
        return Answers.see("/aircraft/" + reading.aircraftId + "/fuel-and-oil");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page);
      }
    }
    return Answers.again(form, page);
  }

  private FluidCorrection correction(FluidReading reading, Form form) {
    FluidArrangement arrangement = fluids.arrangement(viewer, reading.aircraftId, now());
    FluidWords words = new FluidWords(arrangement, Map.of());
    return new FluidCorrection(
        fleet.sheet(viewer, reading.aircraftId, now()),
        form,
        new FluidForm(
            form,
            arrangement,
            fluids.state(viewer, reading.aircraftId, now()),
            engines(reading.aircraftId)),
        reading.id(),
        Shown.moment(reading.happenedAt(), viewer.flightZone()),
        words.what(reading.draft()));
  }

  private FuelArrangementNew page(UUID id, Form form, FluidArrangement onFile, boolean stale) {
    return new FuelArrangementNew(
        fleet.sheet(viewer, id, now()),
        form,
        engines(id),
        FluidArrangementForm.SCALES,
        onFile,
        stale);
  }

  private Reading reading(FluidWords words, FuelAndOil.Compared compared) {
    FluidReading reading = compared.reading();
    return new Reading(
        reading.id(),
        Shown.moment(reading.happenedAt(), viewer.flightZone()),
        reading.flightEntryId,
        words.what(reading.draft()),
        compared.fuel().stream()
            .map(each -> new Sentence(words.sentence(each), each.check().agrees()))
            .toList(),
        reading.remark);
  }

  private List<Fact> left(FluidState state) {
    List<Fact> facts = new ArrayList<>();
    state.tanks().forEach(left -> facts.add(new Fact(left.label(), words(left))));
    state.engines().forEach(left -> facts.add(new Fact("Oil, " + left.label(), words(left))));
    return facts;
  }

  private String words(FluidState.Left left) {
    return left.amount() == null
        ? "not read yet"
        : Shown.quantity(left.amount())
            + " "
            + left.unit()
            + ", "
            + Shown.moment(left.at(), viewer.flightZone());
  }

  private Oil oil(
      FluidArrangement arrangement, FluidWords words, String position, List<OilUse> series) {
    FluidArrangement.Engine engine = arrangement.engines().get(position);
    return new Oil(
        words.labels().getOrDefault(position, position),
        engine == null || engine.limit() == null
            ? ""
            : "Limit " + Shown.quantity(engine.limit()) + " " + engine.unit() + " an hour.",
        OilChart.of(series, engine == null ? null : engine.limit()),
        series.stream().map(use -> line(words, position, use)).toList());
  }

  private OilLine line(FluidWords words, String position, OilUse use) {
    FluidArrangement.Engine engine = words.arrangement().engines().get(position);
    boolean over = use.rose() || engine != null && use.exceeds(engine.limit());
    return new OilLine(
        Shown.moment(java.time.Instant.ofEpochSecond(use.at().epochSecond()), viewer.flightZone()),
        words.level(use.at(), engine),
        words.used(use, engine),
        over ? "limited" : "");
  }

  private List<Position> engines(UUID id) {
    return fleet.positions(viewer, id, now()).stream()
        .filter(position -> position.kind() == PartKind.ENGINE)
        .toList();
  }

  private boolean mayArrange() {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER);
  }

  private View now() {
    return View.asAt(viewer.dateOf(clock.instant()));
  }
}
