package trestle.overview;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.RawString;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.Instant;
import java.time.InstantSource;
import java.util.UUID;
import trestle.fleet.Views;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.LongPart;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** One aircraft: its standing, what it has run, and what falls due on it. */
@Path("/")
@RequestScoped
public class AircraftPages {
  @Inject Viewer viewer;
  @Inject InstantSource clock;
  @Inject Views views;
  @Inject Overviews overviews;
  @Inject Drawn drawn;

  @CheckedTemplate(basePath = "overview", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Aircraft(AircraftOverview aircraft, RawString body, AsAt asAt, Form form, String time)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "overview", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record AircraftBody(
      AircraftOverview aircraft,
      AsAt asAt,
      Form form,
      boolean mayLog,
      boolean mayKeep,
      boolean mayHandOver)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id: [0-9a-fA-F-]{36}}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response aircraft(@PathParam("id") UUID id, @Context UriInfo uri) {
    Instant now = clock.instant();
    Form form = Form.of(uri.getQueryParameters());
    AsAt asAt = views.asked(viewer, form, viewer.dateOf(now));
    AircraftOverview aircraft =
        overviews.kept(viewer, id, asAt).orElseGet(() -> overviews.aircraft(viewer, id, asAt));
    boolean asked = !uri.getQueryParameters().isEmpty();
    Aircraft shown =
        new Aircraft(aircraft, LongPart.PLACE, asAt, form, Shown.time(now, viewer.zone()));
    return Answers.page(form.isOk() ? 200 : 400, shown, body(aircraft, asAt, form, asked));
  }

  /** All of the page but its head, which shows the time. */
  private LongPart body(AircraftOverview aircraft, AsAt asAt, Form form, boolean asked) {
    boolean mayLog = viewer.isAny(Role.PILOT, Role.CONTROLLER, Role.ENGINEER, Role.OWNER);
    boolean mayKeep = viewer.isAny(Role.CONTROLLER, Role.OWNER);
    boolean mayHandOver = viewer.isAny(Role.CONTROLLER, Role.OWNER, Role.AUDITOR);
    AircraftBody body = new AircraftBody(aircraft, asAt, form, mayLog, mayKeep, mayHandOver);
    return asked || asAt.isPast()
        ? new LongPart(body.render())
        : drawn.body(aircraft, new Drawn.For(mayLog, mayKeep, mayHandOver), body::render);
  }
}
