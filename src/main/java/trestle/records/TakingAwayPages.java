package trestle.records;

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
import java.util.List;
import java.util.UUID;
import trestle.fleet.Effects;
import trestle.people.IdentityProof;
import trestle.people.Proof;
import trestle.signing.Signatures;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** Taking a record away that was filed by mistake, whatever its kind. */
@Path("/records/{id}/taking-away")
@RequestScoped
public class TakingAwayPages {
  @Inject TakingsAway takings;
  @Inject Histories histories;
  @Inject Trials trials;
  @Inject Signatures signatures;
  @Inject IdentityProof identity;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "records",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record RecordTakingAway(
      Histories.Sheet sheet,
      Form form,
      String refused,
      boolean signed,
      boolean licensed,
      List<Option> licences,
      String statement,
      Effects.Told told,
      String lead)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id) {
    Form form = Form.blank();
    List<Option> licences = licences();
    if (licences.size() == 1) {
      form.with("licence", licences.get(0).value());
    }
    return Answers.page(page(id, form));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response takeAway(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    Revoking rule = TakingsAway.rule(histories.one(viewer, id).kind().kind());
    String reason = form.required("reason", "Reason").text(500);
    String licence = form.value("licence").strip();
    return Answers.filing(
        form,
        () -> {
          Proof proof = rule.isSigned() ? identity.prove(viewer, form.value("password")) : null;
          return "/records/" + takings.takeAway(viewer, proof, id, reason, licence, form.key());
        },
        () -> page(id, form));
  }

  private RecordTakingAway page(UUID id, Form form) {
    Histories.Sheet sheet = histories.one(viewer, id);
    Revoking rule = TakingsAway.rule(sheet.kind().kind());
    boolean may = rule.who().stream().anyMatch(viewer::is);
    boolean stands = !sheet.asked().isReplaced() && !sheet.asked().takesAway();
    Runnable trial = may && stands ? () -> takings.tried(viewer, id) : null;
    return new RecordTakingAway(
        sheet,
        form,
        !stands
            ? "It was put right already: nothing is left to take away."
            : may ? "" : rule.whoWords(),
        rule.isSigned(),
        rule.isSigned() && rule.signer(sheet.kind().kind(), "").licenceNeeded(),
        licences(),
        Revoking.STATEMENT,
        trials.of(viewer, id, List.of(), trial),
        "If it is taken away,");
  }

  private List<Option> licences() {
    return signatures.licences(viewer, viewer.dateOf(clock.instant())).stream()
        .map(one -> new Option(one.number(), one.kind() + " " + one.number()))
        .toList();
  }
}
