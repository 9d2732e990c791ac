package trestle.demo;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.io.IOException;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * Two engineers take the demo's 100-hour inspection of QX-SOR, with another alternator and its dim
 * panel lights, by the pages from the due list to the printed log entries; then its owner sees it
 * clear, and the next inspection due.
 */
@QuarkusTest
class HundredHourWalkTest {
  private static final Pattern ROW =
      Pattern.compile("name=\"lines\" value=\"([^\"]+)\"[^>]*>\\s*<label[^>]*>(\\d+)\\. ([^<]*)");

  @Inject DemoLoader loader;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Fleet fleet;
  @Inject InstantSource clock;

  private Viewer owner;
  private String aircraft;
  private String order;

  @Test
  void fromTheDueListToThePrintedEntries() throws Exception {
    loader.setAside(LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC));
    owner = loader.load(clock.instant(), Map.of(), people -> {}).owner();
    Visitor first = takenIn("Una Reed", Set.of(Role.ENGINEER), "L-1");
    Visitor second = takenIn("Olaf Sedge", Set.of(Role.ENGINEER), "L-2");
    Visitor boss = takenIn("Ida Marsh", Set.of(Role.OWNER), null);
    aircraft = "/aircraft/" + sor();
    assertThat(boss.get("/fleet").asString()).contains("100-hour inspection");

    String due = first.get("/due-list?aircraft=" + sor()).asString();
    String put =
        link(due.substring(due.indexOf("100-hour inspection</a>")), "(/work-orders/new[^\"]+)");
    String choices = first.get(put).asString();
    order =
        Visitor.leadsTo(
            filed(
                first.fillIn(
                    put,
                    "/work-orders",
                    Map.of(
                        "title",
                        "100-hour inspection, alternator, panel lights",
                        "items",
                        List.of(
                            choice(choices, "100-hour inspection"),
                            choice(choices, "Panel lights")),
                        "free",
                        "Alternator: replace, no charge at idle",
                        "free-area",
                        "engine"))));
    filed(first.fillIn(order, "/issue", Map.of()));
    String alternator = line(first, "Alternator: replace");
    component(first, alternator + "/removals/new", "A-1187", Map.of("why", "No charge at idle"));
    component(
        first,
        alternator + "/fittings/new",
        "A-1240",
        Map.of("assembly-place", "alternator", "evidence", "Release certificate RC-771"));
    String compression = line(first, "Compression of each cylinder");
    filed(
        first.fillIn(
            compression + "/readings",
            "/readings",
            Map.of(
                "kind",
                "compression",
                "reference",
                "43",
                "readings",
                "Cylinder 1: 74\nCylinder 2: 72")));
    assertThat(boss.get(aircraft).asString()).contains("in work and not released");

    Map<String, String> rows = rows(first);
    signed(first, "Replaced; charges 14.1 V", rows, "Alternator: replace");
    signed(first, "Dimmer replaced, lights steady", rows, "Defect ");
    String[] tasks =
        rows.keySet().stream()
            .filter(title -> !title.matches("(Alternator: replace|Defect |100-hour).*"))
            .toArray(String[]::new);
    assertThat(tasks).hasSizeGreaterThan(15);
    signed(first, "Carried out as written. Nothing found.", rows, tasks);
    signed(first, "Inspected by the task list", rows, "100-hour inspection");
    assertThat(first.get(order + "/release").asString()).contains("waits for a second person");
    for (String each : new String[] {"Throttle, mixture, propeller", "Cables, pulleys, travel"}) {
      String look =
          link(second.get(line(second, each)).asString(), "(/line-works/[^\"]+/inspection)");
      Map<String, String> seen = Map.of("words", "Travel and safetying seen");
      filed(second.fillIn(look, "/inspection", sealed(seen, "L-2")));
    }
    filed(first.fillIn(order + "/release", "/release", sealed(Map.of("airworthy", "yes"), "L-1")));

    assertThat(text(first, "release.pdf")).contains("QX-SOR", "Una Reed, Licensed engineer L-1");
    assertThat(text(first, "log-entries.pdf"))
        .contains("Type of inspection: 100-hour inspection", "Cylinder 2 72/80, 10 % lost")
        .contains("serial A-1187", "serial A-1240", "Release certificate RC-771")
        .contains("Inspected independently by Olaf Sedge", "Dimmer replaced");
    String page = boss.get(aircraft).asString();
    assertThat(page).contains("standing clear").doesNotContain("in work and not released");
    // It was done 1.5 h late by the tolerance, and the next counts from when it was due: 98.5 h.
    assertThat(boss.get("/due-list?aircraft=" + sor()).asString())
        .contains("98.5")
        .doesNotContain("Panel lights go dim");
  }

  private Visitor takenIn(String name, Set<Role> roles, String licence) {
    String signIn = "walk-" + UUID.randomUUID();
    operators.personFor(
        CastLoad.INSTALLATION, new Operators.NewPerson(name, signIn, Company.PASSWORD));
    UUID person = members.takeIn(owner, name, signIn, roles).personId();
    if (licence != null) {
      members.addLicence(
          owner,
          person,
          new Members.NewLicence(licence, "Licensed engineer", "airframe, engine", "", null));
    }
    return Visitor.signedIn(signIn, Company.PASSWORD);
  }

  private UUID sor() {
    return fleet.sheets(owner, View.EVERYTHING).stream()
        .filter(sheet -> sheet.registration().equals("QX-SOR"))
        .findFirst()
        .orElseThrow()
        .id();
  }

  private static Response filed(Response answer) {
    assertThat(answer.statusCode()).as(answer.asString()).isEqualTo(303);
    return answer;
  }

  private static String link(String page, String pattern) {
    Matcher found = Pattern.compile("href=\"" + pattern + "\"").matcher(page);
    assertThat(found.find()).as(pattern).isTrue();
    return found.group(1).replace("&amp;", "&");
  }

  private static String choice(String page, String words) {
    Matcher found =
        Pattern.compile("name=\"items\" value=\"([^\"]+)\"[^>]*>\\s*<label[^>]*>([^<]*)")
            .matcher(page);
    while (found.find()) {
      if (found.group(2).contains(words)) {
        return found.group(1);
      }
    }
    throw new AssertionError("No choice of " + words);
  }

  /** The page of the order's line that says so. */
  private String line(Visitor reader, String words) {
    String page = reader.get(order).asString();
    Matcher found = Pattern.compile("href=\"(/work-lines/[^\"]+)\">([^<]*)<").matcher(page);
    while (found.find()) {
      if (found.group(2).contains(words)) {
        return found.group(1);
      }
    }
    throw new AssertionError("No line of " + words);
  }

  private void component(Visitor by, String page, String serial, Map<String, String> more) {
    String html = by.get(page).asString();
    Map<String, String> fields = new HashMap<>(more);
    fields.put("component", option(html, "serial " + serial));
    if (page.contains("fittings")) {
      fields.put("place", option(html, "part VT-360-A"));
    }
    filed(by.fillIn(page, page.contains("fittings") ? "/fittings" : "/removals", fields));
  }

  private static String option(String page, String words) {
    Matcher found = Pattern.compile("<option value=\"([^\"]*)\"[^>]*>([^<]*)").matcher(page);
    while (found.find()) {
      if (found.group(2).contains(words)) {
        return found.group(1);
      }
    }
    throw new AssertionError("No option of " + words);
  }

  /** The rows of the lines that are open, by title. */
  private Map<String, String> rows(Visitor by) {
    Map<String, String> rows = new HashMap<>();
    Matcher found = ROW.matcher(by.get(order + "/signatures").asString());
    while (found.find()) {
      rows.put(found.group(3).strip(), found.group(1));
    }
    return rows;
  }

  private void signed(Visitor by, String words, Map<String, String> rows, String... titles) {
    List<String> lines = new ArrayList<>();
    for (String title : titles) {
      rows.forEach(
          (one, row) -> {
            if (one.startsWith(title)) {
              lines.add(row);
            }
          });
    }
    Map<String, Object> fields = new HashMap<>(sealed(Map.of("words", words), "L-1"));
    fields.put("lines", lines);
    fields.put("data-reference", "Example manual 24-30");
    filed(by.fillIn(order + "/signatures", "/signatures", fields));
  }

  private static Map<String, String> sealed(Map<String, String> fields, String licence) {
    Map<String, String> all = new HashMap<>(fields);
    all.put("licence", licence);
    all.put("password", Company.PASSWORD);
    return all;
  }

  private String text(Visitor by, String what) throws IOException {
    try (PDDocument document = Loader.loadPDF(by.get(order + "/paper/" + what).asByteArray())) {
      PDFTextStripper stripper = new PDFTextStripper();
      stripper.setSortByPosition(true);
      return stripper.getText(document).replaceAll("\\s+", " ");
    }
  }
}
