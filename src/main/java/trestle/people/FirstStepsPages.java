package trestle.people;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.vertx.ext.web.RoutingContext;
import jakarta.annotation.security.PermitAll;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.UUID;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;

/** An empty installation's first page: whoever started it becomes its administrator. */
@Path("/first-steps")
@RequestScoped
public class FirstStepsPages {
  @Inject Operators operators;
  @Inject SignIns signIns;
  @Inject FirstStepsCode code;
  @Inject SessionCookie cookie;
  @Inject RoutingContext request;

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record FirstSteps(Form form) implements TemplateInstance {}

  @GET
  @PermitAll
  public Response ask() {
    if (operators.hasAdministrator(Anyone.VIEWER)) {
      return Answers.see("/sign-in");
    }
    return Answers.page(new FirstSteps(Form.blank()));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @PermitAll
  public Response take(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String typed = form.required("code", "Code").text(60);
    if (typed != null && !code.matches(typed)) {
      form.fail("code", "Code is not the one that was printed when the program started");
    }
    String name = form.required("name", "Your name").text(120);
    String signInName = form.required("sign-in-name", "Sign-in name").text(120);
    String complaint = Passwords.complaint(form.value("password"));
    if (complaint != null) {
      form.fail("password", complaint);
    }
    if (form.isReady()) {
      try {
        UUID person =
            operators.firstAdministrator(
                Anyone.VIEWER, new Operators.NewPerson(name, signInName, form.value("password")));
        cookie.give(request, signIns.open(Anyone.VIEWER, person));
        return Answers.see("/operators/new");
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, new FirstSteps(form));
  }
}
