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
import java.util.LinkedHashSet;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import trestle.ledger.View;
import trestle.reckoning.Hours;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Where the moment of something filed of a component is put right. */
@Path("/components")
@RequestScoped
public class ComponentCorrectionPages {
  /** The reason of what is filed to be taken back at once. */
  private static final String TRIED = "Tried out";

  @Inject Components components;
  @Inject ComponentCorrections corrections;
  @Inject Spots spots;
  @Inject Effects effects;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ComponentCorrection(
      ComponentSheet component,
      Form form,
      String what,
      String onFile,
      boolean opening,
      String times,
      String lead,
      Effects.Told told)
      implements TemplateInstance {}

  /** Something filed of this component, and what puts it right; an opening has figures too. */
  private record Correctable(
      String what,
      Instant at,
      String onFile,
      ComponentHistory.Opening opening,
      Consumer<Fitments.Correcting> correct) {}

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
            .with("on", Shown.typed(correctable.at().atZone(viewer.flightZone()).toLocalDate()))
            .with("time", Shown.time(correctable.at(), viewer.flightZone()));
    ComponentHistory.Opening opening = correctable.opening();
    if (opening != null) {
      form.with("since-new", figure(opening, opening.sinceNew()))
          .with("since-overhaul", figure(opening, opening.sinceOverhaul()));
    }
    Runnable voiding =
        opening != null
            ? null
            : () ->
                correctable
                    .correct()
                    .accept(new Fitments.Correcting(record, correctable.at(), true, TRIED, null));
    Effects.Told told = moves(id, record, voiding);
    return Answers.page(
        correctionPage(
            id, correctable, form, "Were there no such " + correctable.what() + ",", told));
  }

  @POST
  @Path("{id}/corrections/{record}")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response correct(
      @PathParam("id") UUID id,
      @PathParam("record") UUID record,
      MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Correctable found = correctableOrOvertaken(id, record);
    Instant at = StatedMoment.of(form, "On", viewer, clock.instant());
    Correctable correctable = typed(found, form);
    if (form.isReady() && form.checked("preview")) {
      Fitments.Correcting asked =
          new Fitments.Correcting(record, at, form.checked("void"), TRIED, null);
      Effects.Told told = moves(id, record, () -> correctable.correct().accept(asked));
      return Answers.page(correctionPage(id, correctable, form, "With what is typed here,", told));
    }
    String reason = form.required("reason", "Reason").text(500);
    return ComponentAnswers.filed(
        "/components/" + id,
        form,
        () ->
            correctable
                .correct()
                .accept(
                    new Fitments.Correcting(record, at, form.checked("void"), reason, form.key())),
        () -> correctionPage(id, correctable, form, "", null));
  }

  /** Somebody may have corrected it while this form was open: it is shown again, with theirs. */
  private Correctable correctableOrOvertaken(UUID id, UUID record) {
    Optional<Correctable> stands = correctable(id, record);
    if (stands.isPresent()) {
      return stands.get();
    }
    ComponentCorrections.Overtaken overtaken =
        corrections
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
    for (Placement each : history.placements()) {
      if (each.fitmentId().equals(record)) {
        return Optional.of(
            correctable(
                "fitment",
                each.from(),
                spots.words(viewer, each),
                asked -> corrections.correctFitment(viewer, asked)));
      }
      if (record.equals(each.removalId())) {
        return Optional.of(
            correctable(
                "removal",
                each.to(),
                spots.words(viewer, each),
                asked -> corrections.correctRemoval(viewer, asked)));
      }
    }
    for (ComponentHistory.Overhaul each : history.overhauls()) {
      if (each.id().equals(record)) {
        return Optional.of(
            correctable(
                "overhaul",
                each.at(),
                each.reference(),
                asked -> corrections.correctOverhaul(viewer, asked)));
      }
    }
    for (ComponentHistory.Event each : history.events()) {
      if (each.id().equals(record)) {
        return Optional.of(
            correctable(
                "event",
                each.at(),
                each.kind().label(),
                asked -> corrections.correctEvent(viewer, asked)));
      }
    }
    for (ComponentHistory.MeterReading each : history.meterReadings()) {
      if (each.id().equals(record)) {
        return Optional.of(
            correctable(
                "reading",
                each.at(),
                each.counter().unit().show(each.reading()),
                asked -> corrections.correctMeterReading(viewer, asked)));
      }
    }
    return history.openings().stream()
        .filter(each -> each.id().equals(record))
        .findFirst()
        .map(this::correctable);
  }

  /** The figures come from the form; without one they stay as they are. */
  private Correctable correctable(ComponentHistory.Opening opening) {
    return new Correctable(
        "opening",
        opening.at(),
        Shown.moment(opening.at(), viewer.flightZone())
            + ", "
            + CounterWords.of(opening.counter())
            + ": since new "
            + shown(opening, opening.sinceNew())
            + ", since overhaul "
            + shown(opening, opening.sinceOverhaul()),
        opening,
        asked ->
            corrections.correctOpening(viewer, asked, opening.sinceNew(), opening.sinceOverhaul()));
  }

  /** The same with what is typed; it is read where the form asks for it. */
  private Correctable typed(Correctable correctable, Form form) {
    ComponentHistory.Opening opening = correctable.opening();
    if (opening == null) {
      return correctable;
    }
    Long sinceNew = run(opening, form, "since-new", "Since new");
    Long sinceOverhaul = run(opening, form, "since-overhaul", "Since overhaul");
    return new Correctable(
        correctable.what(),
        correctable.at(),
        correctable.onFile(),
        opening,
        asked -> corrections.correctOpening(viewer, asked, sinceNew, sinceOverhaul));
  }

  private static Long run(ComponentHistory.Opening opening, Form form, String field, String label) {
    if (!opening.counter().inHours()) {
      return form.optional(field, label).count();
    }
    Hours hours = form.optional(field, label).hours();
    return hours == null ? null : hours.seconds();
  }

  private static String figure(ComponentHistory.Opening opening, Long units) {
    if (units == null) {
      return null;
    }
    return opening.counter().inHours() ? Shown.exact(new Hours(units)) : units.toString();
  }

  private static String shown(ComponentHistory.Opening opening, Long units) {
    return units == null ? "not known" : opening.counter().unit().show(units);
  }

  private Correctable correctable(
      String what, Instant at, String words, Consumer<Fitments.Correcting> correct) {
    return new Correctable(
        what, at, Shown.moment(at, viewer.flightZone()) + ", " + words, null, correct);
  }

  private Effects.Told moves(UUID id, UUID record, Runnable filing) {
    return effects.of(viewer, record, carriers(id), filing);
  }

  /** The aircraft that it was ever on, by itself or in another component. */
  private Set<UUID> carriers(UUID id) {
    ComponentHistory history = components.history(viewer, id, View.EVERYTHING);
    Set<UUID> carriers = new LinkedHashSet<>();
    history.fittings().forEach(fitting -> carriers.add(fitting.aircraftId()));
    history.placements().stream()
        .filter(placement -> placement.aircraftId() != null)
        .forEach(placement -> carriers.add(placement.aircraftId()));
    return carriers;
  }

  private ComponentCorrection correctionPage(
      UUID id, Correctable correctable, Form form, String lead, Effects.Told told) {
    return new ComponentCorrection(
        components.history(viewer, id, View.EVERYTHING).sheet(),
        form,
        correctable.what(),
        correctable.onFile(),
        correctable.opening() != null,
        viewer.timesInUtc() ? "UTC" : "local time",
        lead,
        told);
  }
}
