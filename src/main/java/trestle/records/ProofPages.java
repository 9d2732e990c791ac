package trestle.records;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.PermitAll;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.io.IOException;
import java.io.InputStream;
import trestle.web.Answers;
import trestle.web.Form;

/** Where anybody checks a printed proof or an old head, without signing in. */
@Path("/")
@RequestScoped
public class ProofPages {
  private static final int LONGEST_RECORD = 60_000;

  @Inject Checks checks;

  @CheckedTemplate(
      basePath = "records",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record ProofPage(Form form, Checked checked) implements TemplateInstance {}

  @GET
  @Path("proof")
  @PermitAll
  public Response ask() {
    return Answers.page(new ProofPage(Form.blank(), null));
  }

  /** From the code on a paper: its link is in capitals, to keep the code small. */
  @GET
  @Path("P/{proof}")
  @PermitAll
  public Response scanned(@PathParam("proof") String proof) {
    return answer(Form.blank().with("proof", proof));
  }

  @POST
  @Path("proof")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @PermitAll
  public Response check(MultivaluedMap<String, String> posted) {
    return answer(Form.of(posted));
  }

  /** The checker that is no part of this program; read it before running it. */
  @GET
  @Path("proof/check-proof.sh")
  @Produces(MediaType.TEXT_PLAIN)
  @PermitAll
  public Response script() throws IOException {
    try (InputStream script = ProofPages.class.getResourceAsStream("/proof/check-proof.sh")) {
      return Response.ok(script.readAllBytes())
          .header("Content-Type", "text/plain; charset=utf-8")
          .header("Content-Disposition", "attachment; filename=\"check-proof.sh\"")
          .build();
    }
  }

  private Response answer(Form form) {
    OutsideText given = form.required("proof", "Proof or head").read(VerifyPages::read);
    String json = form.optional("record", "Text of the record").lines(LONGEST_RECORD);
    Checked checked = form.isBad() ? null : checks.check(given, json);
    return Answers.again(form, new ProofPage(form, checked));
  }
}
