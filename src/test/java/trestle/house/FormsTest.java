package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.function.Executable;
import trestle.house.Routes.Route;
import trestle.house.Yard.Rows;
import trestle.people.Company;
import trestle.people.Visitor;
import trestle.people.Visitor.Filled;

/**
 * Every form of every page, as a browser sends it: first with something wrong, which is told beside
 * its field while everything typed is kept; then by somebody of another operator, who is told that
 * there is nothing; then rightly, which the page that follows shows.
 */
@QuarkusTest
class FormsTest {
  /** Where nobody is signed in, or it is about nobody but whoever sends it. */
  private static final Set<String> ELSEWHERE =
      Set.of(
          "/sign-in",
          "/sign-out",
          "/first-steps",
          "/proof",
          "/operators",
          "/operator-choice",
          "/account/password",
          "/account/sign-out-everywhere");

  /** Forms that no errand fills in yet; whoever writes one takes its route away here. */
  private static final Set<String> NO_ERRAND_YET =
      Set.of(
          // Nothing without a file: TakingInPagesTest sends one.
          "/record-packs",
          // Likewise: BesideTheWorkTest sends one.
          "/work-lines/{id}/photos",
          // Open only after a second programme: CarryOverPagesTest sends it.
          "/aircraft/{id}/programme/carry-over");

  /** Forms that put something in the place of what their sender saw. */
  private static final Set<String> REVISING =
      Set.of(
          "/aircraft/{id}/particulars",
          "/aircraft/{id}/groundings/{grounding}/lifting",
          "/components/{id}/corrections/{record}",
          "/flights/{id}/correction",
          "/parts/{id}/revision",
          "/programmes/{id}/correction",
          "/requirements/{id}/revision",
          "/compliances/{id}/correction",
          "/extensions/{id}/voiding");

  private static final Pattern LINK = Pattern.compile("<a href=\"#([^\"]+)\">");
  private static final List<String> NO_HOURS = List.of("12:75", "1e3", "−1", "1.2.3");

  @Inject Yard yard;

  private static Rows rows;
  private static Visitor owner;
  private static Visitor stranger;

  @BeforeEach
  void found() {
    if (rows == null) {
      rows = yard.founded("tarnbrook", "QX-TBK");
      owner = rows.owner();
      stranger = yard.founded("outsider", "QX-OUT").owner();
    }
  }

  @Test
  void everyFormHasItsErrand() {
    Set<String> forms =
        Routes.inCode().stream()
            .filter(route -> route.method().equals("POST") && !route.path().startsWith("/api/"))
            .map(Route::path)
            .filter(path -> !ELSEWHERE.contains(path) && !NO_ERRAND_YET.contains(path))
            .collect(Collectors.toSet());
    assertThat(Errand.of(rows).stream().map(Errand::route))
        .containsExactlyInAnyOrderElementsOf(forms);
  }

  @Test
  void formsAreRefusedWithAllThatWasTypedAndFiledWhenRight() {
    org.junit.jupiter.api.Assertions.assertAll(Errand.of(rows).stream().map(this::run));
  }

  /** Hours as nobody writes them, wherever a form asks for hours. */
  @Test
  void whatIsNoHoursIsToldWhereverHoursAreAskedFor() {
    Map<String, String> asked = new LinkedHashMap<>();
    asked.put("/aircraft/new", "/aircraft hours");
    asked.put("/aircraft/" + rows.aircraft() + "/meter-changes/new", "/meter-changes on-reading");
    asked.put("/aircraft/" + rows.aircraft() + "/flights/new", "/flights meter-in");
    asked.put("/components/new", "/components hours-overhaul");
    String on = "?aircraft=" + rows.aircraft();
    asked.put("/requirements/new" + on, "/requirements limit-1-every");
    String requirement = "/requirements/" + rows.requirement();
    asked.put(requirement + "/compliances/new" + on, "/compliances reading-hours");
    asked.put(requirement + "/extensions/new" + on, "/extensions new-due");
    asked.forEach(
        (page, form) -> {
          String[] parts = form.split(" ");
          for (String typed : NO_HOURS) {
            refusedAndKept(
                owner.filled(page, parts[0], Map.of(parts[1], typed)), parts[1], parts[0]);
          }
        });
  }

  /** Two people revise one requirement: whoever comes second sees what the first one filed. */
  @Test
  void aStaleRevisionShowsBothVersionsAndMayBeSentOnceMore() {
    String page = "/requirements/" + rows.programmed() + "/revision";
    Map<String, String> typed = Map.of("reason", "Manual, revision 4", "approved-by", "I. Quill");
    Filled mine = owner.filled(page, "/revision", typed).but("title", "Lubrication, mine");
    Filled theirs = owner.filled(page, "/revision", typed).but("title", "Lubrication, theirs");
    assertThat(owner.send(theirs).statusCode()).isEqualTo(303);
    Response stale = owner.send(mine);
    assertThat(stale.statusCode()).isEqualTo(409);
    assertThat(stale.asString())
        .contains("What someone else filed meanwhile", "Lubrication, theirs")
        .contains("value=\"Lubrication, mine\"");
    Filled again = Visitor.filledIn(stale.asString(), page, "/revision", Map.of());
    assertThat(owner.send(again).statusCode()).isEqualTo(303);
    assertThat(owner.get("/requirements/" + rows.programmed()).asString())
        .contains("<h1>Lubrication, mine</h1>");
  }

  /** What only the records refuse stands beside its field too. */
  @Test
  void whatTheRecordsRefuseStandsBesideItsField() {
    Rows other = yard.founded("elsewhere", "QX-ELS");
    Visitor controller = other.owner();
    String spare = "/components/" + other.spare() + "/fitments";
    String taken = other.aircraft() + "/engine";
    Response occupied = controller.fillIn(spare, "/fitments", Map.of("place", taken));
    assertThat(occupied.statusCode()).isEqualTo(422);
    assertThat(occupied.asString()).contains("id=\"place-error\"", "is taken then or later by");
    String removal = "/components/" + other.engine() + "/removals";
    Response early = controller.fillIn(removal, "/removals", Map.of("on", "2020-01-01"));
    assertThat(early.statusCode()).isEqualTo(422);
    assertThat(early.asString()).contains("id=\"on-error\"", "must not be before it was fitted");
  }

  /** One field of more than a form may carry; the whole page of 10 MB is FailurePagesTest's. */
  @Test
  void aFieldOfAHundredKilobytesIsRefusedInWords() {
    Map<String, String> why = Map.of("why", "x".repeat(100_000));
    Response answer =
        owner.fillIn("/aircraft/" + rows.aircraft() + "/groundings", "/groundings", why);
    assertThat(answer.statusCode()).isIn(413, 422);
    assertThat(answer.contentType()).startsWith("text/html");
    assertThat(answer.asString()).contains("<main id=\"main\"").doesNotContain("xception");
  }

  private Executable run(Errand errand) {
    return () -> {
      Filled right = owner.filled(errand.page(), errand.sends(), errand.fields());
      Filled another = owner.filled(errand.page(), errand.sends(), errand.fields());
      if (errand.wrong() != null) {
        refusedAndKept(right.but(errand.wrong(), errand.wrongly()), errand.wrong(), errand.sends());
        right = afterTheSessionEnded(right, errand.sends());
      }
      if (right.action().matches(".*[0-9a-f-]{36}.*") || errand.page().contains("?aircraft=")) {
        assertThat(stranger.send(right).statusCode()).as("a stranger at %s", errand).isEqualTo(404);
      }
      Response filed = owner.send(right);
      assertThat(filed.statusCode()).as("%s: %s", errand, filed.asString()).isIn(200, 303);
      String page =
          filed.statusCode() == 303
              ? owner.get(Visitor.leadsTo(filed)).asString()
              : filed.asString();
      assertThat(page).as("after %s", errand.route()).contains(errand.shows());
      if (REVISING.contains(errand.route())) {
        staleAndKept(another, errand.sends());
      }
    };
  }

  /** Signs in where the refused form says so, goes on, and has it all before them again. */
  private static Filled afterTheSessionEnded(Filled sent, String sends) {
    Response refused = owner.withoutSession().send(sent);
    assertThat(refused.statusCode()).as(sent.action()).isEqualTo(401);
    assertThat(refused.asString()).contains("What you typed is kept");
    Map<String, String> who =
        Map.of("name", "owner@" + rows.company().name(), "password", Company.PASSWORD);
    String goOn =
        owner.send(Visitor.filledIn(refused.asString(), "/sign-in", "/sign-in", who)).asString();
    Response back = owner.send(Visitor.filledIn(goOn, "/sign-in", sent.action(), Map.of()));
    assertThat(back.statusCode()).as("%s: %s", sent.action(), back.asString()).isEqualTo(200);
    Filled again = Visitor.filledIn(back.asString(), sent.action(), sends, Map.of());
    assertThat(again.fields())
        .as("%s, after signing in again", sent.action())
        .containsAllEntriesOf(withoutPassword(sent));
    return sent.fields().containsKey("password")
        ? again.but("password", sent.fields().get("password"))
        : again;
  }

  /** What somebody opened before the other's was filed: both are shown, nothing is filed. */
  private static void staleAndKept(Filled sent, String sends) {
    Response stale = owner.send(sent);
    String page = stale.asString();
    assertThat(stale.statusCode()).as("%s: %s", sent.action(), page).isEqualTo(409);
    assertThat(page).as(sent.action()).contains("<title>Error: ");
    Map<String, Object> typed = new LinkedHashMap<>(sent.fields());
    typed.keySet().removeAll(Set.of("revises", "corrects"));
    assertThat(Visitor.filledIn(page, sent.action(), sends, Map.of()).fields())
        .as("kept by %s", sent.action())
        .containsAllEntriesOf(typed);
  }

  private static void refusedAndKept(Filled sent, String field, String sends) {
    Response refused = owner.send(sent);
    String page = refused.asString();
    String what = sent.action() + " with " + field + " " + sent.fields().get(field);
    assertThat(refused.statusCode()).as("%s: %s", what, page).isEqualTo(422);
    assertThat(page)
        .as(what)
        .contains("<title>Error: ", "<a href=\"#" + field + "\">", "id=\"" + field + "-error\"");
    assertThat(LINK.matcher(page).results().map(link -> link.group(1)))
        .as("every sentence stands beside a field, after %s", what)
        .allSatisfy(id -> assertThat(page).contains(" id=\"" + id + "\""));
    Filled again = Visitor.filledIn(page, sent.action(), sends, Map.of());
    assertThat(again.action()).isEqualTo(sent.action());
    assertThat(again.fields()).as("kept by %s", what).containsAllEntriesOf(withoutPassword(sent));
  }

  /** No page ever carries one. */
  private static Map<String, Object> withoutPassword(Filled sent) {
    Map<String, Object> typed = new LinkedHashMap<>(sent.fields());
    typed.keySet().removeIf(name -> name.contains("password"));
    return typed;
  }
}
