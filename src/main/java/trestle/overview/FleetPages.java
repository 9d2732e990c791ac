package trestle.overview;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.RawString;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.PermitAll;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import trestle.fleet.Views;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Pager;
import trestle.web.Shown;
import trestle.web.Viewer;

/** The fleet on one page. */
@Path("/")
@RequestScoped
public class FleetPages {
  private static final int AIRCRAFT_A_PAGE = 50;

  @Inject Viewer viewer;
  @Inject InstantSource clock;
  @Inject Views views;
  @Inject Overviews overviews;
  @Inject Drawn drawn;
  @Inject Instance<Alarms> alarms;

  @CheckedTemplate(basePath = "overview", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record Fleet(
      List<Alarms.Alarm> alarms,
      AsAt asAt,
      Form form,
      String time,
      String words,
      List<Horizon.Tick> scale,
      List<RawString> rows,
      Pager pager)
      implements TemplateInstance {}

  @CheckedTemplate(basePath = "overview", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record FleetRow(AircraftOverview aircraft, String query) implements TemplateInstance {}

  /** Where somebody who has signed in begins. */
  @GET
  @PermitAll
  public Response begin() {
    boolean onlyAdministers = viewer.operatorId() == null && viewer.administrator();
    return Answers.see(onlyAdministers ? "/operators" : "/fleet");
  }

  @GET
  @Path("fleet")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response fleet(@Context UriInfo uri) {
    Instant now = clock.instant();
    Form form = Form.of(uri.getQueryParameters());
    AsAt asAt = views.asked(viewer, form, viewer.dateOf(now));
    Long page = form.optional("page", "Page").count();
    FleetOverview fleet = overviews.fleet(viewer, asAt);
    Pager pager =
        Pager.of(
            page == null ? null : page.intValue(), AIRCRAFT_A_PAGE, fleet.aircraft().size(), uri);
    Fleet shown =
        new Fleet(
            alarms.stream().flatMap(each -> each.alarms(viewer).stream()).toList(),
            asAt,
            form,
            Shown.time(now, viewer.zone()),
            fleet.words(),
            Horizon.SCALE,
            rows(fleet, asAt, pager),
            pager);
    return Answers.page(form.isOk() ? 200 : 400, shown);
  }

  private List<RawString> rows(FleetOverview fleet, AsAt asAt, Pager pager) {
    return fleet.aircraft().stream()
        .skip(pager.offset())
        .limit(pager.size())
        .map(each -> row(each, asAt))
        .toList();
  }

  private RawString row(AircraftOverview aircraft, AsAt asAt) {
    FleetRow row = new FleetRow(aircraft, asAt.query());
    return asAt.isNow() ? drawn.row(aircraft, row::render) : new RawString(row.render());
  }
}
