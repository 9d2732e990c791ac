package trestle.overview;

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
import java.time.Instant;
import java.time.InstantSource;
import java.util.Comparator;
import java.util.List;
import trestle.fleet.Views;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Pager;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** What falls due on all aircraft or some, to read and to print. */
@Path("/due-list")
@RequestScoped
public class DueListPages {
  private static final int LINES_A_PAGE = 200;

  private static final List<Option> FORCES =
      List.of(new Option("mandatory", "Mandatory"), new Option("recommended", "Recommended"));

  @Inject Viewer viewer;
  @Inject InstantSource clock;
  @Inject Views views;
  @Inject Overviews overviews;

  @CheckedTemplate(basePath = "overview", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record DueListPage(
      AsAt asAt,
      Form form,
      String time,
      List<Option> aircraft,
      List<Option> forces,
      List<DueList.Line> lines,
      Pager pager,
      boolean mayPlan)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response dueList(@Context UriInfo uri) {
    Instant now = clock.instant();
    Form form = Form.of(uri.getQueryParameters());
    AsAt asAt = views.asked(viewer, form, viewer.dateOf(now));
    FleetOverview fleet = overviews.fleet(viewer, asAt);
    List<Option> aircraft = options(fleet);
    DueFilter filter = DueFilter.read(form, aircraft.stream().map(Option::value).toList());
    Long page = form.optional("page", "Page").count();
    List<DueList.Line> lines =
        form.isOk() ? DueList.of(fleet, filter, asAt.day()).lines() : List.of();
    Pager pager = Pager.of(page == null ? null : page.intValue(), LINES_A_PAGE, lines.size(), uri);
    DueListPage shown =
        new DueListPage(
            asAt,
            form,
            Shown.time(now, viewer.zone()),
            aircraft,
            FORCES,
            lines.stream().skip(pager.offset()).limit(pager.size()).toList(),
            pager,
            !asAt.isPast() && viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER));
    return Answers.page(form.isOk() ? 200 : 400, shown);
  }

  private static List<Option> options(FleetOverview fleet) {
    return fleet.aircraft().stream()
        .sorted(Comparator.comparing(AircraftOverview::registration))
        .map(each -> new Option(each.id().toString(), each.registration()))
        .toList();
  }
}
