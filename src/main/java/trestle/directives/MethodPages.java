package trestle.directives;

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
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Other ways of complying with a directive that were approved. */
@Path("directives/{id}/alternative-methods")
@RequestScoped
public class MethodPages {
  @Inject Directives directives;
  @Inject AlternativeMethods methods;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record MethodNew(DirectiveSheet directive, List<Option> aircraft, Form form)
      implements TemplateInstance {}

  @GET
  @Path("new")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id) {
    return Answers.page(page(id, Form.blank().with("on", Shown.typed(today()))));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response add(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DirectiveSheet directive = directives.one(viewer, id);
    Form form = Form.of(posted);
    UUID aircraft = form.optional("aircraft", "For").uuid();
    String words = form.required("words", "Method").lines(500);
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    String reference = form.required("reference", "Approval").text(120);
    Instant at = StatedMoment.of(form, "Approved on", viewer, clock.instant());
    if (form.isReady()) {
      try {
        methods.add(
            viewer,
            new AlternativeMethods.Method(id, aircraft, "", words, approvedBy, reference, null),
            at,
            form.key());
        return Answers.see(directive.link());
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(id, form));
  }

  private MethodNew page(UUID id, Form form) {
    return new MethodNew(
        directives.one(viewer, id),
        fleet.sheets(viewer, View.asAt(today())).stream()
            .filter(one -> !one.retired())
            .map(one -> new Option(one.id().toString(), one.registration()))
            .toList(),
        form);
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
