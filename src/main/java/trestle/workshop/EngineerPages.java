package trestle.workshop;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import trestle.people.OwnPlaces;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Role;
import trestle.web.Viewer;

/** What waits for an engineer, in every operator they work for. */
@Path("/engineer")
@RequestScoped
public class EngineerPages {
  private static final int HOURS = 25;
  private static final int DAYS = 30;

  @Inject OwnPlaces places;
  @Inject EngineerList list;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /**
   * @param here whether the session works in this operator, so that its links open
   */
  record Listed(EngineerList.Place place, boolean here) {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record Engineer(List<Listed> places, EngineerList.Within within, Form form)
      implements TemplateInstance {}

  @GET
  @RolesAllowed(Allow.ENGINEER)
  public Response list(@Context UriInfo uri) {
    Form form = Form.of(uri.getQueryParameters());
    Integer hours = form.optional("hours", "Hours").count(1_000);
    Integer days = form.optional("days", "Days").count(1_000);
    EngineerList.Within within =
        new EngineerList.Within(hours == null ? HOURS : hours, days == null ? DAYS : days);
    List<Listed> shown = new ArrayList<>();
    for (Viewer there : places.of(viewer)) {
      if (there.is(Role.ENGINEER)) {
        shown.add(
            new Listed(
                list.of(there, there.dateOf(clock.instant()), within),
                there.operatorId().equals(viewer.operatorId())));
      }
    }
    return Answers.page(
        form.isOk() ? 200 : 400,
        new Engineer(
            shown, within, form.with("hours", within.hours()).with("days", within.days())));
  }
}
