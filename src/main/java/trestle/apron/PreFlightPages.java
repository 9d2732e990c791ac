package trestle.apron;

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
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.flights.FuelAndOil;
import trestle.ledger.View;
import trestle.people.Members.LicenceLine;
import trestle.signing.Signatures;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Before a pilot takes an aircraft: what to know, on one screen, and the two statements. */
@Path("/")
@RequestScoped
public class PreFlightPages {
  @Inject PreFlights preFlights;
  @Inject Acceptances acceptances;
  @Inject Signatures signatures;
  @Inject Fleet fleet;
  @Inject FuelAndOil fluids;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** What was signed last, in words. */
  record Signed(String words, String at, String link) {}

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record PreFlightPage(
      PreFlight p,
      AcceptanceForm f,
      Form form,
      List<Signed> signed,
      boolean offered,
      boolean mayFile,
      boolean justSigned,
      String at)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/pre-flight")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response show(@PathParam("id") UUID id, @QueryParam("signed") String signed) {
    PreFlight shown = preFlights.shown(viewer, id);
    Form form = AcceptanceForm.blank(shown.seen(), licences());
    return Answers.page(page(shown, form(id, form), signed != null));
  }

  @POST
  @Path("aircraft/{id}/acceptance")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed(Allow.PILOT)
  public Response sign(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    AcceptanceForm read = form(id, Form.of(posted));
    Form form = read.form();
    AcceptanceDraft draft = read.read();
    int status = 422;
    if (form.isReady()) {
      try {
        acceptances.sign(viewer, id, draft, form.value("password"));
        return Answers.see("/aircraft/" + id + "/pre-flight?signed=1");
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        status = 409;
      }
    }
    PreFlight shown = preFlights.shown(viewer, id);
    form.with("seen", shown.seen());
    return Answers.page(form.isBad() ? status : 200, page(shown, read, false));
  }

  private AcceptanceForm form(UUID id, Form form) {
    return new AcceptanceForm(
        form,
        fleet.positions(viewer, id, View.EVERYTHING),
        fluids.arrangement(viewer, id, View.EVERYTHING),
        licences());
  }

  private List<LicenceLine> licences() {
    return viewer.is(Role.PILOT)
        ? signatures.licences(viewer, viewer.dateOf(clock.instant()))
        : List.of();
  }

  private PreFlightPage page(PreFlight shown, AcceptanceForm f, boolean justSigned) {
    Acceptances.Latest latest = acceptances.latest(viewer, shown.sheet().id());
    List<Signed> signed = new java.util.ArrayList<>();
    if (latest.inspection() != null) {
      signed.add(signed("Pre-flight inspection signed", latest.inspection(), ""));
    }
    if (latest.acceptance() != null) {
      signed.add(signed("Accepted", latest.acceptance(), " with " + latest.aboard()));
    }
    return new PreFlightPage(
        shown,
        f,
        f.form(),
        signed,
        viewer.is(Role.PILOT) && !shown.standing().isHeld(),
        viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.PILOT, Role.ENGINEER),
        justSigned,
        Shown.moment(clock.instant(), viewer.zone()));
  }

  private Signed signed(String what, trestle.signing.SignatureLine signature, String with) {
    return new Signed(
        what + " by " + signature.by() + with,
        Shown.moment(signature.at(), viewer.zone()),
        signature.link());
  }
}
