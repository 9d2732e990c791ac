package trestle.programme;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.fleet.PartSheet;
import trestle.fleet.Views;
import trestle.programme.LifeLimits.Countdown;
import trestle.reckoning.Calendar;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Limit;
import trestle.reckoning.RuleWords;
import trestle.reckoning.Scale;
import trestle.standing.InWords;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.AsAt;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Pager;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Life limits and overhauls, counted down: of the fleet, or of one aircraft. */
@Path("/life-limits")
@RequestScoped
public class LifeLimitPages {
  private static final int PAGE = 50;

  @Inject LifeLimits limits;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Views views;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "programme",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record LifeLimitList(
      AsAt at,
      Form form,
      List<Option> aircraft,
      List<Row> rows,
      Pager pager,
      String component,
      List<PartSheet> unlimited)
      implements TemplateInstance {}

  /**
   * One countdown on one component.
   *
   * @param wash how its row is washed, or ""
   */
  public record Row(
      String registration,
      String aircraftLink,
      String title,
      String link,
      String about,
      String binds,
      String state,
      String wash,
      List<Bar> bars) {}

  /**
   * One limit in words, with how full its bar is.
   *
   * @param percent 0 to 100, or null where that is not known
   */
  public record Bar(
      String limit,
      String used,
      String left,
      String projected,
      boolean extended,
      boolean controlling,
      boolean spent,
      Integer percent) {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all(
      @QueryParam("component") UUID component,
      @QueryParam("page") Integer page,
      @Context UriInfo uri) {
    LocalDate today = viewer.dateOf(clock.instant());
    Form form = Form.of(uri.getQueryParameters());
    AsAt at = views.asked(viewer, form, today);
    List<AircraftSheet> sheets =
        fleet.sheets(viewer, at.view()).stream().filter(one -> !one.retired()).toList();
    List<Option> options =
        sheets.stream().map(one -> new Option(one.id().toString(), one.registration())).toList();
    if (component != null) {
      String words = components.history(viewer, component, at.view()).sheet().words();
      List<Row> rows =
          limits.of(viewer, component, at.view()).stream().map(LifeLimitPages::row).toList();
      return Answers.page(
          new LifeLimitList(
              at, form, options, rows, Pager.of(1, PAGE, rows.size(), uri), words, List.of()));
    }
    String chosen =
        form.optional("aircraft", "Aircraft").choice(options.stream().map(Option::value).toList());
    List<UUID> ids =
        form.isBad()
            ? List.of()
            : chosen == null
                ? sheets.stream().map(AircraftSheet::id).toList()
                : List.of(UUID.fromString(chosen));
    List<LifeLimits.Line> lines =
        at.isNow() ? limits.now(viewer, ids, today) : limits.asAt(viewer, ids, at.view());
    Pager pager = Pager.of(page, PAGE, lines.size(), uri);
    List<Row> rows =
        lines.subList(pager.offset(), Math.min(lines.size(), pager.offset() + PAGE)).stream()
            .map(LifeLimitPages::row)
            .toList();
    return Answers.page(
        at.status(),
        new LifeLimitList(
            at, form, options, rows, pager, null, limits.unlimited(viewer, at.view())));
  }

  private static Row row(LifeLimits.Line line) {
    AircraftSheet aircraft = line.aircraft();
    HoursStyle style = aircraft == null ? HoursStyle.TENTHS : aircraft.shownAs();
    boolean spent = line.item().reckoning().spent();
    return new Row(
        aircraft == null ? "in store" : aircraft.registration(),
        aircraft == null ? null : "/aircraft/" + aircraft.id(),
        line.item().title(),
        line.item().link(),
        line.item().subject().words(),
        line.binds().words(),
        spent ? "nothing left" : Explained.words(line.item().state()),
        wash(line, spent),
        line.limits().stream().map(limit -> bar(limit, style)).toList());
  }

  private static String wash(LifeLimits.Line line, boolean spent) {
    if (!spent || line.binds() == LifeLimits.Binds.RECOMMENDED) {
      return "";
    }
    return line.binds() == LifeLimits.Binds.ALWAYS ? "held" : "limited";
  }

  private static Bar bar(Countdown countdown, HoursStyle style) {
    var reckoned = countdown.reckoned();
    String projected =
        reckoned.projectedOn() != null
            ? Shown.date(reckoned.projectedOn())
            : reckoned.lacksRate() ? "no rate of use is known" : "";
    return new Bar(
        RuleWords.limit(reckoned.limit()),
        used(countdown, style),
        new InWords(style).left(reckoned),
        projected,
        reckoned.extended(),
        countdown.controlling(),
        reckoned.spent(),
        countdown.percent());
  }

  /** "1,540.0 h used of 2,000.0 h"; "not known". */
  private static String used(Countdown countdown, HoursStyle style) {
    if (countdown.used() == Scale.UNKNOWN
        || !(countdown.reckoned().limit() instanceof Limit.Measured measured)) {
      return "how much is used is not known";
    }
    if (measured.scale() == Calendar.DAYS) {
      return InWords.days(countdown.used()) + " used of " + InWords.days(countdown.limit());
    }
    return Explained.point(measured.scale(), countdown.used(), style)
        + " used of "
        + Explained.point(measured.scale(), countdown.limit(), style);
  }
}
