package trestle.people;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.quarkus.security.Authenticated;
import io.quarkus.security.identity.SecurityIdentity;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.security.PermitAll;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.UUID;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.KeptForm;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** Signing in and out. */
@Path("/")
@RequestScoped
public class SignInPages {
  @Inject SignIns signIns;
  @Inject Operators operators;
  @Inject SessionCookie cookie;
  @Inject RoutingContext request;
  @Inject SecurityIdentity identity;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record SignIn(Form form, KeptForm kept, boolean demo, boolean started)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record Resume(KeptForm kept) implements TemplateInstance {}

  @GET
  @Path("sign-in")
  @PermitAll
  public Response ask(@QueryParam("next") String next) {
    return Answers.page(page(Form.blank().with("next", Answers.own(next)), KeptForm.NOTHING));
  }

  @POST
  @Path("sign-in")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @PermitAll
  public Response signIn(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    KeptForm kept = KeptForm.carriedBy(posted);
    String name = form.required("name", "Sign-in name").text(120);
    if (form.value("password").isEmpty()) {
      form.fail("password", "Password must not be blank");
    }
    if (form.isOk()) {
      try {
        String address = request.request().remoteAddress().hostAddress();
        cookie.give(request, signIns.signIn(name, form.value("password"), address));
        return kept.isEmpty() ? Answers.see(Answers.own(form.value("next"))) : resume(kept);
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(form, kept));
  }

  @POST
  @Path("sign-out")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @PermitAll
  public Response signOut() {
    UUID session = identity.getAttribute(SessionAuthentication.SESSION);
    if (session != null) {
      signIns.signOut(viewer, session);
    }
    cookie.take(request);
    return Answers.see("/sign-in");
  }

  @POST
  @Path("operator-choice")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Authenticated
  public Response choose(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    UUID operator = form.required("operator", "Operator").uuid();
    if (form.isOk()) {
      signIns.choose(viewer, identity.getAttribute(SessionAuthentication.SESSION), operator);
    }
    return Answers.see("/");
  }

  private Response resume(KeptForm kept) {
    return Answers.page(new Resume(kept));
  }

  TemplateInstance page(Form form, KeptForm kept) {
    return new SignIn(
        form, kept, operators.demoExists(Anyone.VIEWER), operators.hasAdministrator(Anyone.VIEWER));
  }
}
