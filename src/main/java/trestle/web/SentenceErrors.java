package trestle.web;

import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import org.jboss.resteasy.reactive.server.ServerExceptionMapper;

/** What a use case refuses and no page has caught: its sentence, under the right status. */
class SentenceErrors {
  @ServerExceptionMapper
  Response notHere(NotHere missing) {
    return sentence(404, missing);
  }

  @ServerExceptionMapper
  Response stale(Stale stale) {
    return sentence(409, stale);
  }

  @ServerExceptionMapper
  Response refused(Refusal refusal) {
    return sentence(422, refusal);
  }

  private static Response sentence(int status, RuntimeException why) {
    return Response.status(status)
        .type(MediaType.TEXT_PLAIN_TYPE.withCharset("UTF-8"))
        .entity(why.getMessage())
        .build();
  }
}
