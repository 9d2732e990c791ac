package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.house.Routes.Route;
import trestle.house.Yard.Rows;
import trestle.people.Visitor;

/**
 * The walls between operators, route by route: whoever owns one operator asks with the ids of
 * another's real rows and is told that there is nothing, and sees no word of it. {@link FormsTest}
 * sends the other operator's forms, filled in rightly.
 */
@QuarkusTest
class WallsByRouteTest {
  @Inject Yard yard;

  private static Rows theirs;
  private static Rows ours;

  @BeforeEach
  void found() {
    if (theirs == null) {
      theirs = yard.founded("brackwater", "QX-BRW");
      ours = yard.founded("cove", "QX-COV");
    }
  }

  @Test
  void everyAddressOpensForWhomItBelongsTo() {
    Visitor owner = theirs.owner();
    for (Route route : Routes.inCode()) {
      if (Addresses.nameRow(route) && route.method().equals("GET")) {
        String path = Addresses.of(route, theirs);
        assertThat(owner.get(path).statusCode()).as("the owner's own %s", path).isEqualTo(200);
      }
    }
  }

  @Test
  void noAddressOpensForAnotherOperator() {
    Visitor stranger = ours.owner();
    List<String> walked = new ArrayList<>();
    for (Route route : Routes.inCode()) {
      if (Addresses.nameRow(route)) {
        String path = Addresses.of(route, theirs);
        Response answer =
            route.method().equals("GET") ? stranger.get(path) : stranger.post(path, Map.of());
        assertThat(answer.statusCode()).as("%s %s", route.method(), path).isEqualTo(404);
        assertNothingShows(path, answer);
        walked.add(path);
      }
    }
    assertThat(walked).hasSizeGreaterThan(50);
  }

  /** Each line of the ledger, where its record is shown and where it is put right. */
  @Test
  void everyRecordLeadsToItsPagesAndIsShutToOthers() {
    Visitor owner = theirs.owner();
    Visitor stranger = ours.owner();
    Set<String> records = new LinkedHashSet<>();
    Set<String> pages = new LinkedHashSet<>();
    String next = "/history";
    while (next != null) {
      String page = owner.get(next).asString();
      records.addAll(links(page, "<a href=\"(/records/[^\"]+)\""));
      pages.addAll(links(page, "<a href=\"([^\"]+)\">Where it is shown"));
      next = links(page, "<a href=\"([^\"]+)\">Earlier records").stream().findFirst().orElse(null);
    }
    assertThat(records).hasSizeGreaterThan(60);
    for (String record : records) {
      Response answer = owner.get(record);
      assertThat(answer.statusCode()).as(record).isEqualTo(200);
      pages.addAll(links(answer.asString(), "href=\"([^\"]+)\">Put it right"));
      Response shut = stranger.get(record);
      assertThat(shut.statusCode()).as(record).isEqualTo(404);
      assertNothingShows(record, shut);
    }
    for (String page : pages) {
      assertThat(owner.get(page).statusCode()).as(page).isIn(200, 403);
    }
  }

  private static List<String> links(String page, String pattern) {
    return Pattern.compile(pattern)
        .matcher(page)
        .results()
        .map(found -> found.group(1).replace("&amp;", "&"))
        .toList();
  }

  /** An unknown registration, or anything else, in the place of an id. */
  @Test
  void whatIsNoIdIsAnsweredWithAPage() {
    Visitor stranger = ours.owner();
    for (Route route : Routes.inCode()) {
      if (Addresses.nameRow(route) && route.method().equals("GET")) {
        String path = route.path().replaceAll("\\{\\w+}", "QX-ZZZ");
        Response answer = stranger.get(path);
        assertThat(answer.statusCode()).as(path).isEqualTo(404);
        assertThat(answer.asString()).as(path).contains("<h1>Nothing here</h1>");
      }
    }
  }

  /** Their row under an address of ours, or as what a page of ours is asked about. */
  @Test
  void ourOwnPagesDoNotShowTheirsEither() {
    Visitor stranger = ours.owner();
    String aircraft = "/aircraft/" + ours.aircraft();
    for (String path :
        List.of(
            aircraft + "/groundings/" + theirs.grounding() + "/lifting",
            aircraft + "/counters?corrects=" + theirs.compliance(),
            "/components/" + ours.engine() + "/corrections/" + theirs.fitment(),
            "/paragraphs/" + ours.paragraph() + "/assessments/new?aircraft=" + theirs.aircraft(),
            "/paragraphs/" + ours.paragraph() + "/assessments/new?component=" + theirs.engine(),
            "/requirements/new?aircraft=" + theirs.aircraft(),
            "/requirements/new?component=" + theirs.engine(),
            "/requirements/new?programme=" + theirs.programme(),
            "/requirements/" + ours.requirement() + "?aircraft=" + theirs.aircraft(),
            "/requirements/" + ours.programmed() + "?aircraft=" + theirs.aircraft(),
            "/requirements/" + ours.programmed() + "/compliances/new?aircraft=" + theirs.aircraft(),
            "/requirements/"
                + ours.programmed()
                + "/extensions/new?aircraft="
                + theirs.aircraft())) {
      Response answer = stranger.get(path);
      assertThat(answer.statusCode()).as(path).isEqualTo(404);
      assertNothingShows(path, answer);
    }
  }

  @Test
  void listsHoldOnlyOurs() {
    Visitor stranger = ours.owner();
    for (Route route : Routes.inCode()) {
      if (!route.path().contains("{") && route.method().equals("GET")) {
        assertNothingShows(route.path(), stranger.get(route.path()));
      }
    }
    for (String list : List.of("/fleet", "/components", "/programmes", "/members", "/due-list")) {
      assertThat(stranger.get(list).asString().toLowerCase(Locale.ROOT)).as(list).contains("cove");
    }
  }

  /** What a form of ours may name in its fields: chosen from ours, or nothing is filed. */
  @Test
  void formsOfOursCannotNameTheirs() {
    Visitor stranger = ours.owner();
    String aircraft = "/aircraft/" + ours.aircraft();
    String today = ours.today().toString();
    refused(
        stranger.fillIn(
            "/components/" + ours.spare() + "/fitments",
            "/fitments",
            Map.of("place", theirs.aircraft() + "/spare-bay")));
    refused(
        stranger.fillIn(
            aircraft + "/programme",
            "/adoptions",
            Map.of("programme", theirs.programme().toString(), "on", today)));
    refused(
        stranger.fillIn(
            "/components/" + ours.engine() + "/removals",
            "/removals",
            Map.of("fitment", theirs.fitment().toString())));
    refused(
        stranger.post(
            "/extensions/" + theirs.extension() + "/voiding",
            Map.of(
                "reason",
                "None of mine",
                "requirement",
                ours.requirement().toString(),
                "aircraft",
                ours.aircraft().toString())));
    refused(
        stranger.fillIn(
            "/requirements/" + ours.requirement() + "/revision",
            "/revision",
            Map.of("revises", theirs.requirement().toString(), "reason", "x", "approved-by", "x")));
    refused(
        stranger.fillIn(
            "/requirements/new?aircraft=" + ours.aircraft(),
            "/requirements",
            Map.of(
                "title",
                "Covers theirs",
                "limit-1-every",
                "100",
                "approved-by",
                "x",
                "covers",
                theirs.requirement().toString())));
    refused(
        stranger.fillIn(
            "/requirements/new?aircraft=" + ours.aircraft(),
            "/requirements",
            Map.of(
                "title",
                "Due with theirs",
                "limit-1-every",
                "100",
                "approved-by",
                "x",
                "with",
                theirs.requirement().toString())));
    refused(stranger.post("/operator-choice", Map.of("operator", theirs.company().operatorId())));
    assertThat(stranger.get("/fleet").asString()).contains("QX-COV");
  }

  private static void refused(Response answer) {
    assertThat(answer.statusCode()).as(answer.asString()).isIn(404, 409, 422);
    assertNothingShows("a form", answer);
  }

  private static void assertNothingShows(String path, Response answer) {
    assertThat(answer.asString().toLowerCase(Locale.ROOT))
        .as(path)
        .doesNotContain(theirs.mark(), theirs.registration().toLowerCase(Locale.ROOT));
  }
}
