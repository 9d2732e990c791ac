package trestle.people;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.quarkus.security.identity.SecurityIdentity;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.EnumSet;
import java.util.List;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** The installation's operators, for its administrator. */
@Path("/operators")
@RolesAllowed(Allow.ADMINISTRATOR)
@RequestScoped
public class OperatorPages {
  private static final List<Option> TIMES =
      List.of(new Option("utc", "UTC"), new Option("local", "The operator's local time"));

  @Inject @Any Instance<InstallationNotice> notices;
  @Inject Operators operators;
  @Inject SignIns signIns;
  @Inject SecurityIdentity identity;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OperatorList(List<Operators.Line> operators, List<String> notices)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OperatorNew(Form form, List<Option> times) implements TemplateInstance {}

  @GET
  @RolesAllowed(Allow.ADMINISTRATOR)
  public Response all() {
    return Answers.page(new OperatorList(operators.all(viewer), told()));
  }

  private List<String> told() {
    return notices.stream().flatMap(notice -> notice.sentence().stream()).toList();
  }

  @GET
  @Path("new")
  @RolesAllowed(Allow.ADMINISTRATOR)
  public Response ask() {
    return Answers.page(
        new OperatorNew(Form.blank().with("flight-times-in", "utc").with("own", "yes"), TIMES));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed(Allow.ADMINISTRATOR)
  public Response create(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String name = form.required("name", "Operator").text(120);
    String base = form.optional("base", "Base").text(120);
    String zone = form.required("time-zone", "Time zone").text(60);
    String times = form.required("flight-times-in", "Flight times").choice("utc", "local");
    if (form.isReady()) {
      try {
        UUID created =
            operators.create(
                viewer,
                new Operators.NewOperator(name, base == null ? "" : base, zone, times, false),
                viewer.personId(),
                EnumSet.of(Role.OWNER, Role.CONTROLLER));
        signIns.choose(viewer, identity.getAttribute(SessionAuthentication.SESSION), created);
        return Answers.see("/members");
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, new OperatorNew(form, TIMES));
  }
}
