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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.standing.DueItem;
import trestle.standing.InWords;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** After a change of programme: from where each new requirement counts. */
@Path("/")
@RequestScoped
public class CarryOverPages {
  @Inject CarryOvers carryOvers;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** One requirement of the new programme, with what it may carry on from. */
  public record Line(String field, String label, String rule, List<Option> options) {}

  @CheckedTemplate(basePath = "programme", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record CarryOver(AircraftSheet aircraft, Form form, List<Line> lines)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/programme/carry-over")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response ask(@PathParam("id") UUID id) {
    List<CarryOvers.Open> open = carryOvers.open(viewer, id, today());
    Form form = Form.blank();
    for (CarryOvers.Open each : open) {
      if (each.likely() != null) {
        form.with(each.key(), each.likely().requirementId());
      }
    }
    return Answers.page(page(id, form, open));
  }

  @POST
  @Path("aircraft/{id}/programme/carry-over")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response carry(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    List<CarryOvers.Open> open = carryOvers.open(viewer, id, today());
    CarryOver page = page(id, form, open);
    String why = form.optional("remarks", "Remarks").lines(500);
    Map<String, UUID> chosen = new HashMap<>();
    for (CarryOvers.Open each : open) {
      UUID from = form.optional(each.key(), each.item().title()).uuid();
      if (from != null) {
        chosen.put(each.key(), from);
      }
    }
    if (form.isReady()) {
      try {
        carryOvers.carry(viewer, id, chosen, why == null ? "" : why, today());
        return Answers.see("/aircraft/" + id + "/programme");
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page);
  }

  private CarryOver page(UUID id, Form form, List<CarryOvers.Open> open) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, View.asAt(today()));
    return new CarryOver(aircraft, form, open.stream().map(CarryOverPages::line).toList());
  }

  private static Line line(CarryOvers.Open open) {
    DueItem item = open.item();
    String about = item.subject().isAircraft() ? "" : " (" + item.subject().words() + ")";
    List<Option> options =
        open.candidates().stream()
            .map(old -> new Option(old.requirementId().toString(), words(old)))
            .toList();
    return new Line(open.key(), item.title() + about, item.ruleWords(), options);
  }

  private static String words(DueItem old) {
    LocalDate on = old.lastDone().reading().on();
    return old.title() + (on == null ? "" : ", last done " + InWords.date(on));
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
