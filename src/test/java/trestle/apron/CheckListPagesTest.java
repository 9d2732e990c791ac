package trestle.apron;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.people.Visitor;
import trestle.people.Visitor.Filled;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;

/** Lists to go by: the example, the operator's, a type's own, and a defect from any line. */
@QuarkusTest
class CheckListPagesTest {
  private static final String REVISION = "/check-lists/revision?kind=walk-round";

  @Inject Ramp ramp;
  @Inject CheckLists lists;

  private Ramp.Base base;
  private Visitor controller;
  private UUID aircraft;

  @BeforeEach
  void aBase() {
    base = ramp.base();
    controller = base.company().visitor(Role.CONTROLLER);
    aircraft = ramp.bare(base, "QX-ABC", "hours=100 landings=10");
  }

  @Test
  void anyLineBecomesADefectWithItsPlace() {
    assertThat(base.company().visitor(Role.PILOT).get(walkRound()).asString())
        .contains("An example list")
        .contains("<b>Left main gear</b>")
        .contains("/defects/new?aircraft=" + aircraft + "&amp;place=Left+main+gear");
    assertThat(base.company().visitor(Role.AUDITOR).get(walkRound()).asString())
        .contains("<b>Left main gear</b>")
        .doesNotContain("/defects/new");
  }

  @Test
  void aTypesOwnListGoesBeforeThatOfAll() {
    file("", "Nose: all of it");
    assertThat(controller.get(walkRound()).asString()).contains("<b>Nose</b>");
    file("Skerry 200", "Floats & struts: no water");
    assertThat(controller.get(walkRound()).asString())
        .contains("<b>Floats &amp; struts</b>")
        .contains("place=Floats+%26+struts")
        .doesNotContain("<b>Nose</b>");
    assertThat(controller.get("/check-lists").asString())
        .contains("Walk-round, all types")
        .contains("Walk-round, Skerry 200")
        .contains("Nose: all of it");
  }

  @Test
  void aRevisionNeedsAReasonAndIsOfWhatStands() {
    Filled first = controller.filled(REVISION, "/revision", Map.of("lines", "Nose: all of it"));
    assertThat(controller.send(first).statusCode()).isEqualTo(303);
    assertThat(controller.send(first).statusCode()).as("the same form again").isEqualTo(303);

    Filled second = controller.filled(REVISION, "/revision", Map.of("lines", "Nose\n\n Tail "));
    assertThat(controller.send(second).statusCode()).isEqualTo(422);
    assertThat(controller.send(second.but("reason", "Manual, revision 3")).statusCode())
        .isEqualTo(303);
    assertThat(lists.of(base.owner(), CheckListSheet.Kind.WALK_ROUND, "").lines())
        .containsExactly("Nose", "Tail");

    Response stale =
        controller.send(
            new Filled(
                second.action(),
                Map.of(
                    "kind",
                    "walk-round",
                    "type",
                    "",
                    "lines",
                    "Mine",
                    "reason",
                    "Why",
                    "revises",
                    second.fields().get("revises"))));
    assertThat(stale.statusCode()).isEqualTo(409);
    assertThat(stale.asString())
        .contains("Someone revised this list", "Mine", "<li>Tail</li>")
        .contains("What someone else filed meanwhile");
    Filled again = Visitor.filledIn(stale.asString(), REVISION, "/revision", Map.of());
    assertThat(controller.send(again).statusCode()).isEqualTo(303);
  }

  @Test
  void aListHasLinesAndNotTooMany() {
    for (List<String> wrong :
        List.of(
            List.of("", " "), List.of("x".repeat(201)), java.util.Collections.nCopies(101, "x"))) {
      assertThatThrownBy(
              () ->
                  lists.revise(
                      base.owner(),
                      new CheckLists.NewList(
                          CheckListSheet.Kind.WALK_ROUND,
                          "",
                          wrong,
                          null,
                          null,
                          UUID.randomUUID())))
          .isInstanceOf(Refusal.class);
    }
    assertThatThrownBy(
            () ->
                lists.revise(
                    base.owner(),
                    new CheckLists.NewList(
                        CheckListSheet.Kind.WALK_ROUND,
                        "",
                        List.of("x"),
                        UUID.randomUUID(),
                        "y",
                        UUID.randomUUID())))
        .isInstanceOf(Stale.class);
  }

  @Test
  void thereIsNoListOfAnotherKindOrType() {
    for (String query : List.of("?kind=shopping", "", "?kind=walk-round&type=Nobody+1")) {
      assertThat(controller.get("/check-lists/revision" + query).statusCode()).isEqualTo(404);
    }
  }

  @Test
  void anotherOperatorsListsAreNotOurs() {
    file("", "Nose: ours alone");
    Visitor stranger = ramp.base().company().visitor(Role.CONTROLLER);
    assertThat(stranger.get("/check-lists").asString()).doesNotContain("ours alone");
  }

  private String walkRound() {
    return "/aircraft/" + aircraft + "/walk-round";
  }

  private void file(String type, String lines) {
    Response filed =
        controller.fillIn(REVISION + "&type=" + type, "/revision", Map.of("lines", lines));
    assertThat(filed.statusCode()).as(filed.asString()).isEqualTo(303);
  }
}
