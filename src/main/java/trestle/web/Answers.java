package trestle.web;

import io.quarkus.qute.TemplateInstance;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.function.Supplier;

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

  /** A page whose long part has been made before. */
  public static Response page(int status, TemplateInstance around, LongPart part) {
    return Response.status(status).type(HTML).entity(LongPage.of(around.render(), part)).build();
  }

  /**
   * The form again, as typed: 422 when something is wrong with it, 409 when someone else was
   * quicker, 200 when it came back by itself.
   */
  public static Response again(Form form, TemplateInstance page) {
    return page(form.isStale() ? 409 : form.isBad() ? 422 : 200, page);
  }

  /**
   * Does what a form asks for, once it is ready; else, and where the use case says no, the form
   * again with what it said.
   *
   * @param filing files, and says where to look at it
   * @param page made afterwards, so that it shows what was refused and what stands now
   */
  public static Response filing(
      Form form, Supplier<String> filing, Supplier<? extends TemplateInstance> page) {
    if (form.isReady()) {
      try {
        return see(filing.get());
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.stale(stale);
      }
    }
    return again(form, page.get());
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
