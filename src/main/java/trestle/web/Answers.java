package trestle.web;

import io.quarkus.qute.TemplateInstance;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;

/** The few ways a page's method answers. */
public final class Answers {
  private static final MediaType HTML = MediaType.TEXT_HTML_TYPE.withCharset("UTF-8");

  private Answers() {}

  public static Response page(TemplateInstance page) {
    return page(200, page);
  }

  public static Response page(int status, TemplateInstance page) {
    return Response.status(status).type(HTML).entity(page.render()).build();
  }

  /** The form again, as typed: 422 when something is wrong with it, 200 when it came back. */
  public static Response again(Form form, TemplateInstance page) {
    return page(form.isBad() ? 422 : 200, page);
  }

  /** Done: go and look at it there. */
  public static Response see(String path) {
    return Response.seeOther(URI.create(path)).build();
  }

  /** The path if it is one of our own to go on to, else the first page: never another site. */
  public static String own(String path) {
    boolean own =
        path != null
            && path.startsWith("/")
            && !path.startsWith("//")
            && !path.contains("\\")
            && !path.startsWith("/sign-in")
            && path.chars().allMatch(c -> c > 0x20 && c < 0x7f);
    return own ? path : "/";
  }
}
