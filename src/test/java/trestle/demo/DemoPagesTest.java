package trestle.demo;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.fleet.Parts;
import trestle.flights.Flights;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * The demo's story by its pages. A landing misread six weeks ago shows as it was known then and as
 * it truly was, on every page that shows a past day. Swapping a magneto between two aircraft asks
 * again about the directive that names its serial number, moves its life with it, and leaves both
 * aircraft's status reports right, before and after, as at either date.
 */
@QuarkusTest
class DemoPagesTest {
  private static final String NAMED = "2207";
  private static final String OTHER = "2689";
  private static final String RUN = "\"?[0-9,.]+ h\"?";

  @Inject DemoLoader loader;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Parts parts;
  @Inject InstantSource clock;

  @Inject Flights flights;

  private static Viewer viewer;
  private static LocalDate today;
  private static Visitor engineer;

  /** README of the demo: "About six weeks ago a landing time of QX-WIC was misread". */
  @Test
  void aPastDayIsShownAsItTrulyWasAndAsItWasKnownThen() throws Exception {
    loaded();
    UUID wic = aircraft("QX-WIC");
    Flights.Entry misread = misread(wic);
    LocalDate day = misread.current().landedOn();
    String path = "/aircraft/" + wic;
    String truly = total(status(path, "?as-at=" + day));
    String then = total(status(path, "?as-at=" + day + "&known=then"));
    String later = total(status(path, "?as-at=" + day.plusDays(3) + "&known=then"));
    assertThat(then).as("ten minutes less were known that evening").isNotEqualTo(truly);
    assertThat(later)
        .as("corrected within two days")
        .isEqualTo(total(status(path, "?as-at=" + day.plusDays(3))));
    UUID engine = engineOf(wic);
    for (String page :
        List.of(
            "/fleet",
            "/due-list",
            path,
            path + "/status",
            path + "/flights",
            path + "/configuration",
            path + "/documents",
            path + "/directives",
            path + "/defects",
            "/defects",
            "/life-limits",
            "/components",
            "/components/" + engine)) {
      for (String known : List.of("", "&known=then")) {
        var answer = engineer.get(page + "?as-at=" + day + known);
        assertThat(answer.statusCode()).as(page).isEqualTo(200);
        assertThat(answer.asString())
            .as(page)
            .contains(known.isEmpty() ? ", as it truly was: " : ", as it was known then: ")
            .contains(Shown.weekday(day));
      }
    }
    String known = engineer.get(path + "/flights?as-at=" + day + "&known=then").asString();
    assertThat(known).doesNotContain("wrong line of the flight sheet");
    assertThat(engineer.get(path + "/flights?as-at=" + day).asString())
        .contains("wrong line of the flight sheet");
  }

  private Flights.Entry misread(UUID aircraft) {
    for (int page = 1; page < 20; page++) {
      for (Flights.Entry entry : flights.page(viewer, aircraft, View.asAt(today), page).entries()) {
        if (entry.rows().size() > 1) {
          return entry;
        }
      }
    }
    throw new AssertionError("No flight of it was corrected");
  }

  private static String total(List<String> report) {
    return report.stream()
        .filter(line -> line.startsWith("Time in service"))
        .findFirst()
        .orElseThrow();
  }

  private UUID engineOf(UUID aircraft) {
    return components.fittings(viewer, List.of(aircraft), View.asAt(today)).get(aircraft).stream()
        .filter(fitting -> fitting.positionCode().startsWith("engine"))
        .findFirst()
        .orElseThrow()
        .componentId();
  }

  @Test
  void theMagnetoTakesItsDirectiveAndItsLifeWithIt() throws Exception {
    loaded();
    String wic = "/aircraft/" + aircraft("QX-WIC");
    String sor = "/aircraft/" + aircraft("QX-SOR");
    UUID named = component(NAMED);
    List<String> ofWic = status(wic, "");
    List<String> ofSor = status(sor, "");
    assertThat(directive(ofWic, NAMED)).contains(",\"Applies:");
    assertThat(directive(ofSor, OTHER)).contains("Not named");
    assertThat(lives(ofWic, NAMED)).isNotEmpty();
    assertThat(lives(ofSor, NAMED)).isEmpty();
    String yesterday = "?as-at=" + today.minusDays(1);
    List<String> wicBefore = status(wic, yesterday);
    List<String> sorBefore = status(sor, yesterday);

    var swapped =
        engineer.fillIn(
            "/components/" + named + "/swaps",
            "/swaps",
            Map.of("other", component(OTHER).toString(), "why", "Back where it came from"));
    assertThat(swapped.statusCode()).as(swapped.asString()).isEqualTo(303);

    List<String> nowSor = status(sor, "");
    assertThat(directive(nowSor, NAMED)).contains("To be assessed: fitted here since");
    assertThat(directive(status(wic, ""), OTHER)).contains("Not named");
    assertThat(status(wic, "")).noneMatch(line -> line.contains("serial " + NAMED));
    assertThat(lives(nowSor, NAMED)).as("what it had run").isEqualTo(lives(ofWic, NAMED));
    assertThat(engineer.get(sor).asString()).contains("X-2022-04 (a) is to be assessed");
    assertThat(engineer.get(wic).asString()).doesNotContain("is to be assessed");
    assertThat(engineer.get("/directives").asString()).contains("serial " + NAMED);

    assertThat(status(wic, yesterday)).as("as at the day before").isEqualTo(wicBefore);
    assertThat(status(sor, yesterday)).as("as at the day before").isEqualTo(sorBefore);
    assertThat(directive(wicBefore, NAMED)).contains(",\"Applies:");
  }

  /**
   * README of the demo: "What the two Dunlin S4 carry is told too, and can be seen side by side".
   */
  @Test
  void whatTheSistersCarryIsToldAndWhatEachPartMayRun() throws Exception {
    loaded();
    UUID sor = aircraft("QX-SOR");
    UUID wic = aircraft("QX-WIC");
    assertThat(status("/aircraft/" + sor, ""))
        .anyMatch(line -> line.contains("CARGO-POD") && line.contains("form 2024-1"))
        .anyMatch(line -> line.contains("WING-RIB-7") && line.contains("form 2025-3"));
    assertThat(engineer.get("/aircraft/" + sor + "/configuration").asString())
        .contains("Panel lights inoperative: not at night", "Belly skin, empty weight", "748.7 kg")
        .contains("998.54 mm");
    assertThat(engineer.get("/aircraft/" + wic + "/configuration").asString())
        .contains("755.4 kg", "1,016.929 mm")
        .doesNotContain("CARGO-POD");
    assertThat(engineer.get("/aircraft-comparison?one=" + sor + "&other=" + wic).asString())
        .contains("CARGO-POD", "INSTRUMENTS-2", "Third-row seats");
    UUID coupling = parts.of(viewer, "LC-2", View.EVERYTHING).orElseThrow().id();
    assertThat(engineer.get("/parts/" + coupling).asString())
        .contains("Impulse coupling life limit", "2,500 h", "binds every flight", "by E. Quill");
  }

  /** With somebody taken in whose password is known, whoever was told the demo's before. */
  private void loaded() throws Exception {
    if (viewer != null) {
      return;
    }
    loader.setAside(today());
    viewer = loader.load(clock.instant(), Map.of(), people -> {}).owner();
    today = viewer.dateOf(clock.instant());
    String name = "swap-" + UUID.randomUUID();
    operators.personFor(
        CastLoad.INSTALLATION, new Operators.NewPerson("S. Wap", name, Company.PASSWORD));
    members.takeIn(viewer, "S. Wap", name, Set.of(Role.ENGINEER, Role.OWNER));
    engineer = Visitor.signedIn(name, Company.PASSWORD);
  }

  private LocalDate today() {
    return LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC);
  }

  private UUID aircraft(String registration) {
    return fleet.sheets(viewer, View.EVERYTHING).stream()
        .filter(sheet -> sheet.registration().equals(registration))
        .findFirst()
        .orElseThrow()
        .id();
  }

  private UUID component(String serial) {
    return components.sheets(viewer, View.EVERYTHING).stream()
        .filter(sheet -> sheet.serial().equals(serial) && sheet.partNumber().equals("LM-4"))
        .findFirst()
        .orElseThrow()
        .id();
  }

  /** The report as CSV, line by line. */
  private List<String> status(String aircraft, String asAt) {
    return engineer.get(aircraft + "/status.csv" + asAt).asString().lines().toList();
  }

  private static String directive(List<String> report, String serial) {
    return report.stream()
        .filter(line -> line.startsWith("X-2022-04 (a)") && line.contains("serial " + serial))
        .findFirst()
        .orElse("");
  }

  /** Since new and since overhaul, of the line that says what a part has run. */
  private static String lives(List<String> report, String serial) {
    return report.stream()
        .filter(line -> line.contains("serial " + serial) && line.contains("magneto"))
        .filter(line -> !line.startsWith("X-"))
        .map(
            line -> line.replaceAll(".*serial " + serial + "\",(" + RUN + "," + RUN + "),.*", "$1"))
        .findFirst()
        .orElse("");
  }
}
