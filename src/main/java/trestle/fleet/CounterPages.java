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
import java.util.List;
import java.util.UUID;
import trestle.fleet.Fleet.MeterChangeSheet;
import trestle.fleet.Fleet.OpeningSheet;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Field;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** What an aircraft counts, from where, and its meter. */
@Path("/")
@RequestScoped
public class CounterPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject Fleet fleet;
  @Inject Meters meters;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record CounterList(
      AircraftSheet aircraft,
      Form form,
      List<OpeningLine> openings,
      List<MeterLine> changes,
      OpeningLine correcting,
      boolean mayFile,
      String times)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "fleet",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record MeterChangeNew(AircraftSheet aircraft, Form form, MeterLine correcting, String times)
      implements TemplateInstance {}

  public record OpeningLine(UUID id, String counter, String name, String amount, String at) {}

  public record MeterLine(UUID id, String off, String on, String at) {}

  @GET
  @Path("aircraft/{id}/counters")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response counters(@PathParam("id") UUID id, @QueryParam("corrects") UUID corrects) {
    Form form = Form.blank().with("on", Shown.typed(viewer.dateOf(clock.instant())));
    if (corrects != null) {
      OpeningLine line = opening(id, corrects);
      form.with("counter", line.counter())
          .with("corrects", corrects)
          .with("amount", line.amount().equals("not known") ? null : line.amount());
    }
    return Answers.page(counterList(id, form));
  }

  @POST
  @Path("aircraft/{id}/counters")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response open(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    Counter counter =
        form.required("counter", "Counter")
            .read(typed -> new Counter(typed.toLowerCase(java.util.Locale.ROOT).replace(' ', '-')));
    Field amount = form.optional("amount", "Total");
    Long units = null;
    if (counter != null && counter.inHours()) {
      Hours hours = amount.hours();
      units = hours == null ? null : Long.valueOf(hours.seconds());
    } else {
      units = amount.count();
    }
    Instant at = StatedMoment.of(form, "As at", viewer, clock.instant());
    UUID corrects = form.optional("corrects", "Opening").uuid();
    String reason =
        corrects == null
            ? form.optional("reason", "Reason").text(500)
            : form.required("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        meters.open(
            viewer, id, new Meters.Opening(counter, units, at, corrects, reason, form.key()));
        return Answers.see("/aircraft/" + id + "/counters");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, counterList(id, form));
      }
    }
    return Answers.again(form, counterList(id, form));
  }

  @GET
  @Path("aircraft/{id}/meter-changes/new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response askMeterChange(@PathParam("id") UUID id, @QueryParam("corrects") UUID corrects) {
    Form form = Form.blank().with("on", Shown.typed(viewer.dateOf(clock.instant())));
    if (corrects != null) {
      form.with("corrects", corrects);
    }
    return Answers.page(meterChange(id, form));
  }

  @POST
  @Path("aircraft/{id}/meter-changes")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response changeMeter(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    Form form = Form.of(posted);
    Instant at = StatedMoment.of(form, "Changed on", viewer, clock.instant());
    Hours off = form.optional("off-reading", "Last reading before").hours();
    Hours on = form.required("on-reading", "First reading after").hours();
    UUID corrects = form.optional("corrects", "Change").uuid();
    String reason = corrects == null ? null : form.required("reason", "Reason").text(500);
    if (form.isReady()) {
      try {
        meters.changeMeter(
            viewer,
            id,
            new Meters.ChangingMeter(
                at,
                off == null ? null : off.seconds(),
                on.seconds(),
                corrects,
                form.checked("void"),
                reason,
                form.key()));
        return Answers.see("/aircraft/" + id + "/counters");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, meterChange(id, form));
      }
    }
    return Answers.again(form, meterChange(id, form));
  }

  private CounterList counterList(UUID id, Form form) {
    String corrects = form.value("corrects");
    return new CounterList(
        fleet.sheet(viewer, id, View.EVERYTHING),
        form,
        openings(id),
        meterLines(id),
        corrects.isEmpty() ? null : opening(id, form.optional("corrects", "Opening").uuid()),
        viewer.isAny(Role.OWNER, Role.CONTROLLER),
        times());
  }

  private MeterChangeNew meterChange(UUID id, Form form) {
    UUID corrects = form.optional("corrects", "Change").uuid();
    MeterLine line =
        meterLines(id).stream().filter(each -> each.id().equals(corrects)).findFirst().orElse(null);
    return new MeterChangeNew(fleet.sheet(viewer, id, View.EVERYTHING), form, line, times());
  }

  private OpeningLine opening(UUID id, UUID opening) {
    return openings(id).stream()
        .filter(line -> line.id().equals(opening))
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such opening on this aircraft."));
  }

  private List<OpeningLine> openings(UUID id) {
    return fleet.openings(viewer, List.of(id), View.EVERYTHING).getOrDefault(id, List.of()).stream()
        .map(this::line)
        .toList();
  }

  private OpeningLine line(OpeningSheet opening) {
    return new OpeningLine(
        opening.id(),
        opening.counter().name(),
        CounterWords.of(opening.counter()),
        opening.amount() == null ? "not known" : opening.counter().unit().show(opening.amount()),
        Shown.moment(opening.at(), viewer.flightZone()));
  }

  private List<MeterLine> meterLines(UUID id) {
    return fleet
        .meterChanges(viewer, List.of(id), View.EVERYTHING)
        .getOrDefault(id, List.of())
        .stream()
        .map(this::line)
        .toList();
  }

  private MeterLine line(MeterChangeSheet change) {
    return new MeterLine(
        change.id(),
        change.offReading() == null ? "not known" : new Hours(change.offReading()).toString(),
        new Hours(change.onReading()).toString(),
        Shown.moment(change.at(), viewer.flightZone()));
  }

  private String times() {
    return viewer.timesInUtc() ? "UTC" : "local time";
  }
}
