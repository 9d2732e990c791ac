package trestle.house;

import java.util.UUID;
import java.util.regex.Pattern;
import trestle.house.Routes.Route;
import trestle.house.Yard.Rows;
import trestle.ledger.SomeProof;

/** Where pages are, of the rows of one operator. */
final class Addresses {
  private static final Pattern NAME = Pattern.compile("\\{(\\w+)}");

  /** Lists that come with the program, alike for every operator; files by their hash. */
  private static final Pattern NO_ROWS = Pattern.compile("/(assets|rule-profile/examples|P)/.*");

  private Addresses() {}

  static boolean nameRow(Route route) {
    return route.path().contains("{") && !NO_ROWS.matcher(route.path()).matches();
  }

  /**
   * A route's address, with what its page needs besides to open; fails for a route that names a row
   * of which there is none here.
   */
  static String of(Route route, Rows rows) {
    String path =
        NAME.matcher(route.path()).replaceAll(found -> id(route, found.group(1), rows).toString());
    return path + query(route, rows);
  }

  private static Object id(Route route, String name, Rows rows) {
    if (name.equals("key")) {
      return "plain";
    }
    String of = name.equals("id") ? route.path().split("/")[1] : name;
    UUID id =
        switch (of) {
          case "aircraft" -> rows.aircraft();
          case "flights", "flight" -> rows.flight();
          case "fuel-and-oil" -> rows.reading();
          case "components" -> rows.engine();
          case "parts" -> rows.part();
          case "record" -> rows.fitment();
          case "grounding" -> rows.grounding();
          case "programmes" -> rows.programme();
          case "requirements" -> rows.requirement();
          case "compliances" -> rows.compliance();
          case "extensions" -> rows.extension();
          case "members" -> rows.member();
          case "signatures" -> rows.signature();
          case "records" -> rows.mistaken();
          case "defects" -> rows.defect();
          case "rectifications" -> rows.rectification();
          case "occurrences" -> rows.occurrence();
          case "abnormal-events" -> rows.event();
          case "event-inspections" -> rows.inspection();
          case "deferrals" -> rows.deferral();
          case "directives" -> rows.directive();
          case "paragraphs" -> rows.paragraph();
          case "work-orders" ->
              route.path().contains("/paper/") ? rows.bay().flown() : rows.bay().order();
          case "work-lines" -> rows.bay().lines().get(0);
          case "line-works" -> rows.bay().signed();
          case "part-uses" -> rows.bay().part();
          case "work-releases" -> rows.bay().release();
          case "pilot-works" -> rows.bay().pilotWork();
          case "record-packs" -> rows.handed().taken();
          case "upload" -> rows.handed().upload();
          case "flight-permits" -> rows.bay().permit();
          case "code", "kind", "sha", "file", "paper", "proof" -> null;
          default -> throw new AssertionError("No row for {" + name + "} of " + route.row());
        };
    return switch (of) {
      case "code" -> "spare-bay";
      case "kind" -> rows.eventKind();
      case "sha" -> rows.photo();
      case "file" -> rows.directiveFile();
      case "paper" -> rows.paper();
      case "proof" -> SomeProof.text();
      default -> id;
    };
  }

  /** What some pages need besides, to open at all. */
  private static String query(Route route, Rows rows) {
    if (route.path().equals("/flights/{id}/explanations")) {
      return "?kind=overlap";
    }
    if (route.path().equals("/check-lists/revision")) {
      return "?kind=walk-round";
    }
    boolean onAircraft =
        route
            .path()
            .matches(
                "/(requirements/(.*/)?|defects/|abnormal-events/|paragraphs/.*/|work-orders/)new");
    return onAircraft ? "?aircraft=" + rows.aircraft() : "";
  }
}
