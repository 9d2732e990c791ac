package trestle.signing;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Response;
import java.util.UUID;
import trestle.formats.CanonicalJson;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Shown;
import trestle.web.Viewer;

/** A signature: who, when, under what, and exactly what was signed. */
@Path("/")
@RequestScoped
public class SignaturePages {
  private static final ObjectMapper JSON = new ObjectMapper();

  @Inject Signatures signatures;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "signing",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record SignaturePage(SignatureLine signature, String at, String content, boolean agrees)
      implements TemplateInstance {}

  @GET
  @Path("signatures/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    SignatureLine signature = signatures.one(viewer, id);
    return Answers.page(
        new SignaturePage(
            signature,
            Shown.moment(signature.at(), viewer.zone()),
            laidOut(signature.signed()),
            Signing.sha256(signature.signed()).equals(signature.sha256())));
  }

  private static String laidOut(String canonical) {
    try {
      return JSON.writerWithDefaultPrettyPrinter()
          .writeValueAsString(CanonicalJson.parse(canonical));
    } catch (JsonProcessingException e) {
      throw new IllegalStateException(e);
    }
  }
}
