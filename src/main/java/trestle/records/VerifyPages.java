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
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.List;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Viewer;

/** Whether the operator's record still is as it was filed. */
@Path("/verification")
@RequestScoped
public class VerifyPages {
  @Inject Verify verify;
  @Inject Verifications verifications;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "records",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record VerifyPage(Form form, List<VerifiedLine> newest, String head, Viewer viewer)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.AUDITOR})
  public Response shown() {
    return Answers.page(page(Form.blank()));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.AUDITOR})
  public Response run(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    OutsideText given = form.optional("outside", "Head or proof").read(VerifyPages::read);
    return Answers.filing(
        form,
        () -> {
          verify.run(viewer, given);
          return "/verification";
        },
        () -> page(form));
  }

  static OutsideText read(String text) {
    try {
      return OutsideText.parse(text);
    } catch (IllegalArgumentException e) {
      throw new IllegalArgumentException("can’t be read: " + e.getMessage(), e);
    }
  }

  private VerifyPage page(Form form) {
    return new VerifyPage(
        form, verifications.newest(viewer), verifications.head(viewer).text(), viewer);
  }
}
