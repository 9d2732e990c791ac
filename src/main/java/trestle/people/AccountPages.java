package trestle.people;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import io.quarkus.security.Authenticated;
import io.quarkus.security.identity.SecurityIdentity;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.List;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** A person's own page: which operator, which password, and out of every session. */
@Path("/account")
@RequestScoped
public class AccountPages {
  @Inject SignIns signIns;
  @Inject SecurityIdentity identity;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "people",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record Account(Form form, Form place, List<Option> places, Viewer viewer)
      implements TemplateInstance {}

  @GET
  @Authenticated
  public Response show() {
    return Answers.page(page(Form.blank()));
  }

  @POST
  @Path("password")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Authenticated
  public Response changePassword(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    try {
      signIns.changePassword(
          viewer,
          identity.getAttribute(SessionAuthentication.SESSION),
          form.value("old-password"),
          form.value("new-password"));
      return Answers.see("/account");
    } catch (Refusal refusal) {
      return Answers.again(form, page(form.refused(refusal)));
    }
  }

  @POST
  @Path("sign-out-everywhere")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @Authenticated
  public Response signOutEverywhere() {
    signIns.signOutEverywhere(viewer);
    return Answers.see("/sign-in");
  }

  private TemplateInstance page(Form form) {
    List<Option> places =
        signIns.places(viewer).stream()
            .map(place -> new Option(place.operatorId().toString(), place.name()))
            .toList();
    return new Account(form, Form.blank().with("operator", viewer.operatorId()), places, viewer);
  }
}
