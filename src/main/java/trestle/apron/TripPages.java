package trestle.apron;

import io.quarkus.qute.CheckedTemplate;
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
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** The trip check: a question by GET, for one aircraft or for the fleet. */
@Path("/")
@RequestScoped
public class TripPages {
  @Inject TripChecks checks;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record TripCheckPage(AircraftSheet aircraft, TripForm f, Form form, TripCheck check)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "apron",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record TripCheckFleet(TripForm f, Form form, List<TripCheck> checks, String query, String words)
      implements TemplateInstance {}

  @GET
  @Path("aircraft/{id}/trip-check")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id, @Context UriInfo uri) {
    TripChecks.Ready ready = checks.ready(viewer, id);
    TripForm asked = asked(uri, List.of(ready));
    Trip trip = isToCheck(uri) ? asked.read() : null;
    TripCheck check = trip == null ? null : ready.check(trip);
    return Answers.page(
        asked.form().isBad() ? 422 : 200,
        new TripCheckPage(ready.aircraft().sheet(), asked, asked.form(), check));
  }

  @GET
  @Path("trip-check")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response fleet(@Context UriInfo uri) {
    List<TripChecks.Ready> fleet = checks.ready(viewer);
    TripForm asked = asked(uri, fleet);
    Trip trip = isToCheck(uri) ? asked.read() : null;
    List<TripCheck> checked = trip == null ? null : TripChecks.checked(fleet, trip);
    return Answers.page(
        asked.form().isBad() ? 422 : 200,
        new TripCheckFleet(asked, asked.form(), checked, query(uri), words(checked)));
  }

  private TripForm asked(UriInfo uri, Collection<TripChecks.Ready> fleet) {
    LocalDate today = viewer.dateOf(clock.instant());
    Form form = isAsked(uri) ? Form.of(uri.getQueryParameters()) : TripForm.blank(today);
    List<Option> kinds =
        TripChecks.kinds(fleet).stream().map(kind -> new Option(kind, inWords(kind))).toList();
    return new TripForm(form, today, kinds);
  }

  private static boolean isAsked(UriInfo uri) {
    return !uri.getQueryParameters().isEmpty();
  }

  private static boolean isToCheck(UriInfo uri) {
    return isAsked(uri) && !uri.getQueryParameters().containsKey(TripForm.MORE);
  }

  private static String inWords(String kind) {
    return switch (kind) {
      case "hire" -> "For hire";
      case "night" -> "At night";
      default -> Character.toUpperCase(kind.charAt(0)) + kind.substring(1);
    };
  }

  private static String query(UriInfo uri) {
    String raw = uri.getRequestUri().getRawQuery();
    return raw == null ? "" : "?" + raw;
  }

  private static String words(List<TripCheck> checked) {
    if (checked == null) {
      return "";
    }
    long lasting = checked.stream().filter(TripCheck::lasts).count();
    return lasting == 0
        ? "Something recorded stands against this trip on every aircraft."
        : "On " + lasting + " of " + checked.size() + " nothing recorded runs out on this trip.";
  }
}
