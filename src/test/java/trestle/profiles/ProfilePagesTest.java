package trestle.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.fleet.Revisions;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.profiles.RuleProfile.ClockBase;
import trestle.profiles.RuleProfile.Route;
import trestle.profiles.RuleProfile.Untriaged;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Choosing, revising and differing, by the pages and by the use cases. */
@QuarkusTest
class ProfilePagesTest {
  private static final LocalDate DAY = LocalDate.of(2025, 3, 1);
  private static int companies;

  @Inject RuleProfiles profiles;
  @Inject Revisions revisions;
  @Inject Hangar hangar;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private Visitor controller;
  private UUID aircraft;

  @BeforeEach
  void found() {
    company = Company.founded("profiles-" + companies++, operators, members);
    controller = company.visitor(Role.CONTROLLER);
    aircraft =
        hangar.single(company.viewer(Role.OWNER), "QX-SOR", Instant.parse("2025-01-01T00:00:00Z"));
  }

  @Test
  void whoNeverChoseGoesByThePlainExample() {
    RuleProfile profile = now(null);
    assertThat(profile).isEqualTo(Examples.plain().profile());
    assertThat(profile.example()).isTrue();
    assertThat(controller.get("/rule-profile").asString())
        .contains("Plain example", "shipped example", "holds the aircraft", "None was filed yet");
  }

  @Test
  void anExampleIsChosenAndThenMadeTheOperatorsOwn() {
    long before = revision();
    Response chosen = choose("/rule-profile", "part-135");
    assertThat(chosen.statusCode()).isEqualTo(303);
    assertThat(now(aircraft).allows(Route.NO_LIST)).isFalse();
    assertThat(revision()).isGreaterThan(before);
    assertThat(controller.get("/rule-profile").asString())
        .contains("Example for 14 CFR part 135", "this route is refused", "from memory");

    Response revised =
        controller.fillIn(
            "/rule-profile/revision",
            "/rule-profile/revision",
            answers(
                Map.of(
                    "name",
                    "Sound Air rules",
                    "document",
                    "Operations manual 4.2, revision 3",
                    "untriaged",
                    "limits",
                    "extend",
                    List.of("B"),
                    "minimum-equipment-list",
                    List.of("engineer"))));
    assertThat(revised.statusCode()).as(revised.asString()).isEqualTo(303);
    RuleProfile own = now(null);
    assertThat(own.example()).isFalse();
    assertThat(own.untriaged()).isEqualTo(Untriaged.LIMITS);
    assertThat(own.mayDefer(Route.MINIMUM_EQUIPMENT_LIST)).containsExactly(Role.ENGINEER);
    assertThat(own.tolerances()).isEqualTo(Examples.of("part-135").profile().tolerances());
    assertThat(own.statements()).isEqualTo(Examples.of("part-135").profile().statements());
    assertThat(controller.get("/rule-profile").asString())
        .contains("Operations manual 4.2, revision 3", "Rules were read again", "A. Authority")
        .contains("it started from “Example for 14 CFR part 135”")
        .doesNotContain("It must be replaced");
  }

  @Test
  void anAircraftDiffersAndGoesBack() {
    choose("/aircraft/" + aircraft + "/rule-profile", "part-91");
    assertThat(now(aircraft).allows(Route.NO_LIST)).isTrue();
    assertThat(now(aircraft).name()).contains("part 91");
    assertThat(now(null)).isEqualTo(Examples.plain().profile());
    assertThat(controller.get("/rule-profile").asString()).contains("QX-SOR");

    choose("/aircraft/" + aircraft + "/rule-profile", "operator");
    assertThat(now(aircraft)).isEqualTo(Examples.plain().profile());
    assertThat(profiles.of(viewer(), aircraft, new View(DAY.minusDays(1), null)))
        .isEqualTo(Examples.plain().profile());
    assertThat(controller.get("/aircraft/" + aircraft + "/rule-profile").asString())
        .contains("goes by its operator’s", "goes by the operator’s");
  }

  @Test
  void aStaleRevisionShowsBothAndTheNextOneStands() {
    Map<String, Object> fields =
        new java.util.LinkedHashMap<>(answers(Map.of("name", "Mine", "revises", "")));
    choose("/rule-profile", "part-m");
    Response stale = controller.fillIn("/rule-profile/revision", "/rule-profile/revision", fields);
    assertThat(stale.statusCode()).isEqualTo(409);
    assertThat(stale.asString())
        .contains("Someone revised this rule profile", "What someone else filed meanwhile")
        .contains("Example for EASA and UK Part-M", "value=\"Mine\"");
    assertThat(now(null).name()).isEqualTo("Example for EASA and UK Part-M");
  }

  @Test
  void ofTwoWhoChooseAtOnceOneIsTold() throws Exception {
    CyclicBarrier together = new CyclicBarrier(2);
    ExecutorService both = Executors.newFixedThreadPool(2);
    try {
      List<Future<String>> ends = new ArrayList<>();
      for (String key : List.of("part-m", "part-ml")) {
        Callable<String> one =
            () -> {
              together.await();
              try {
                profiles.revise(viewer(), asked(null, null, Examples.of(key).profile()));
                return "filed";
              } catch (Stale stale) {
                return "told";
              }
            };
        ends.add(both.submit(one));
      }
      assertThat(List.of(ends.get(0).get(), ends.get(1).get()))
          .containsExactlyInAnyOrder("filed", "told");
    } finally {
      both.shutdownNow();
    }
  }

  /** FAA Order 8900.1, volume 4, chapter 4, as quoted: UTC or local, fixed once. */
  @Test
  void theTimeBaseIsChosenOnce() {
    RuleProfile own = named(Examples.plain().profile(), "Manual 1").counting(ClockBase.LOCAL);
    UUID first = profiles.revise(viewer(), asked(null, null, own));
    assertThat(refused(asked(null, first, own.counting(ClockBase.UTC))))
        .contains("The days of deferrals are counted in local time");
    assertThat(refused(asked(aircraft, null, Examples.of("part-91").profile())))
        .contains("The days of deferrals are counted in local time");
    assertThat(profiles.chosen(viewer(), aircraft, "part-91").clockBase())
        .isEqualTo(ClockBase.LOCAL);
  }

  @Test
  void whatCanNotStandIsToldAtItsField() {
    Response refused =
        controller.fillIn(
            "/rule-profile/revision",
            "/rule-profile/revision",
            answers(
                Map.of(
                    "tolerance-label-1",
                    "Annual",
                    "tolerance-by-1",
                    "calendar",
                    "tolerance-amount-1",
                    "a while",
                    "tolerance-late-1",
                    "restart",
                    "extend-times",
                    "many",
                    "approved-by",
                    "")));
    assertThat(refused.statusCode()).isEqualTo(422);
    assertThat(refused.asString())
        .contains("Amount 1 must be a period", "Times must be a whole number")
        .contains("Approved by must not be blank", "value=\"a while\"");
    assertThat(profiles.history(viewer(), null)).isEmpty();
  }

  @Test
  void anEngineerReadsAndDoesNotRevise() {
    Visitor engineer = company.visitor(Role.ENGINEER);
    assertThat(engineer.get("/rule-profile").statusCode()).isEqualTo(200);
    assertThat(engineer.get("/rule-profile").asString()).doesNotContain("Revise it");
    assertThat(engineer.get("/rule-profile/revision").statusCode()).isEqualTo(403);
    Viewer asEngineer = company.viewer(Role.ENGINEER);
    NewProfile asked = asked(null, null, Examples.plain().profile());
    assertThat(refused(asEngineer, asked)).contains("filed by an owner or a controller");
  }

  @Test
  void everyExampleHasItsPage() {
    for (Example example : Examples.all()) {
      Response page = controller.get("/rule-profile/examples/" + example.key());
      assertThat(page.statusCode()).isEqualTo(200);
      assertThat(page.asString()).contains(example.title(), "to be replaced by");
    }
    assertThat(controller.get("/rule-profile/examples/nowhere").statusCode()).isEqualTo(404);
  }

  private Response choose(String path, String example) {
    return controller.fillIn(
        path + "/choice",
        path + "/choice",
        Map.of(
            "example", example, "reason", "Rules were read again", "approved-by", "A. Authority"));
  }

  private static Map<String, Object> answers(Map<String, ?> more) {
    Map<String, Object> all = new java.util.LinkedHashMap<>();
    all.put("reason", "Rules were read again");
    all.put("approved-by", "A. Authority");
    all.put("month-rule", "month-end");
    all.put("counts-from", "released");
    all.put("untriaged", "holds");
    all.put("clock-base", "utc");
    all.putAll(more);
    return all;
  }

  private NewProfile asked(UUID of, UUID revises, RuleProfile profile) {
    return new NewProfile(of, revises, "plain", profile, DAY, "Read again", "A. Authority", null);
  }

  private static RuleProfile named(RuleProfile profile, String document) {
    return ProfileJson.parse(
        ProfileJson.text(profile)
            .replace("\"document\":\"\"", "\"document\":\"" + document + "\""));
  }

  private String refused(NewProfile asked) {
    return refused(viewer(), asked);
  }

  private String refused(Viewer viewer, NewProfile asked) {
    try {
      profiles.revise(viewer, asked);
      return "filed";
    } catch (Refusal refusal) {
      return refusal.getMessage();
    }
  }

  private RuleProfile now(UUID of) {
    return profiles.of(viewer(), of, View.EVERYTHING);
  }

  private long revision() {
    return revisions.of(viewer(), List.of(aircraft)).get(aircraft);
  }

  private Viewer viewer() {
    return company.viewer(Role.CONTROLLER);
  }
}
