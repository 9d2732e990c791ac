package trestle.people;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.sql.SQLException;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.server.Command;
import trestle.server.TestDatabase;
import trestle.web.Role;

@QuarkusTest
class SigningInTest {
  @Inject Operators operators;
  @Inject Members members;
  @Inject @Any Instance<Command> commands;

  static Company company;

  @BeforeEach
  void found() {
    company =
        company != null
            ? company
            : Company.founded("signing-" + UUID.randomUUID(), operators, members);
  }

  @Test
  void aMemberSignsInAndOut() {
    Visitor pilot = company.visitor(Role.PILOT);
    assertThat(pilot.get("/account").statusCode()).isEqualTo(200);
    assertThat(pilot.post("/sign-out", Map.of()).statusCode()).isEqualTo(303);
    assertThat(pilot.get("/account").header("Location")).contains("/sign-in?next=%2Faccount");
  }

  @Test
  void theCookieIsHttpOnlyAndSameSite() {
    Visitor visitor = Visitor.atTheDoor();
    Response answer =
        visitor.post(
            "/sign-in", Map.of("name", "PILOT@" + company.name(), "password", Company.PASSWORD));
    assertThat(answer.headers().getValues("set-cookie"))
        .anySatisfy(
            cookie ->
                assertThat(cookie)
                    .startsWith("trestle-session=")
                    .containsIgnoringCase("HttpOnly")
                    .containsIgnoringCase("SameSite=Lax"));
  }

  @Test
  void aCopyOfTheCookieIsDeadOnceItsOwnerSignsOut() {
    Visitor pilot = company.visitor(Role.PILOT);
    Visitor thief = Visitor.atTheDoor().withSessionOf(pilot);
    assertThat(thief.get("/account").statusCode()).isEqualTo(200);
    pilot.post("/sign-out", Map.of());
    assertThat(thief.get("/account").statusCode()).isEqualTo(303);
  }

  @Test
  void shuttingOutEndsEverySessionAtOnce() {
    Visitor phone = company.visitor(Role.PILOT);
    Visitor desk = company.visitor(Role.PILOT);
    members.shutOut(company.viewer(Role.OWNER), company.people().get(Role.PILOT));
    assertThat(phone.get("/account").statusCode()).isEqualTo(303);
    assertThat(desk.get("/account").statusCode()).isEqualTo(303);
  }

  @Test
  void losingARoleWorksOnTheNextRequest() {
    Visitor controller = company.visitor(Role.CONTROLLER);
    assertThat(controller.get("/members/new").statusCode()).isEqualTo(200);
    members.setRoles(
        company.viewer(Role.OWNER),
        company.people().get(Role.CONTROLLER),
        Set.of(Role.AUDITOR),
        "Left the desk");
    assertThat(controller.get("/members/new").statusCode()).isEqualTo(403);
  }

  @Test
  void guessingIsBraked() {
    String name = "engineer@" + company.name();
    Visitor guesser = Visitor.atTheDoor();
    for (int i = 0; i < 5; i++) {
      Response wrong =
          guesser.post("/sign-in", Map.of("name", name, "password", "wrong password " + i));
      assertThat(wrong.statusCode()).isEqualTo(422);
      assertThat(wrong.asString()).contains("Name or password is not right");
    }
    Response right = guesser.post("/sign-in", Map.of("name", name, "password", Company.PASSWORD));
    assertThat(right.statusCode()).isEqualTo(422);
    assertThat(right.asString()).contains("Too many tries");
  }

  @Test
  void guessingTheOldPasswordIsBrakedToo() {
    Members.Welcome member = taken(UUID.randomUUID());
    Visitor guesser = Visitor.signedIn(member.signInName(), member.password());
    guesser.get("/account");
    for (int i = 0; i < 5; i++) {
      assertThat(change(guesser, "wrong password " + i))
          .contains("Password now in use is not right");
    }
    assertThat(change(guesser, member.password())).contains("Too many tries");
    assertThat(signsIn(member.signInName(), member.password())).as("the same brake").isFalse();
  }

  @Test
  void whoKnowsTheOldPasswordChangesIt() {
    Members.Welcome member = taken(UUID.randomUUID());
    Visitor desk = Visitor.signedIn(member.signInName(), member.password());
    Visitor phone = Visitor.signedIn(member.signInName(), member.password());
    desk.get("/account");
    change(desk, member.password());
    assertThat(desk.get("/account").statusCode()).isEqualTo(200);
    assertThat(phone.get("/account").statusCode()).isEqualTo(303);
    assertThat(signsIn(member.signInName(), "a few other words")).isTrue();
  }

  private static String change(Visitor visitor, String old) {
    return visitor
        .post("/account/password", Map.of("old-password", old, "new-password", "a few other words"))
        .asString();
  }

  @Test
  void anUnknownNameGetsTheSameSentence() {
    Response answer =
        Visitor.atTheDoor()
            .post("/sign-in", Map.of("name", "nobody@nowhere", "password", "whatever it is"));
    assertThat(answer.asString()).contains("Name or password is not right");
  }

  @Test
  void aFormSentAfterTheSessionEndedIsAllStillThere() {
    Visitor owner = company.visitor(Role.OWNER);
    owner.get("/members/new");
    owner.withoutSession();
    Response refused =
        owner.post(
            "/members",
            Map.of("name", "Ida \"Quill\" & Søn", "sign-in-name", "", "roles", "pilot"));
    assertThat(refused.statusCode()).isEqualTo(401);
    assertThat(refused.asString()).contains("What you typed is kept");
    Map<String, String> carried = new java.util.HashMap<>();
    carried.put("name", "owner@" + company.name());
    carried.put("password", Company.PASSWORD);
    carried.put("kept-action", "/members");
    carried.put("kept.name", "Ida \"Quill\" & Søn");
    carried.put("kept.roles", "pilot");
    assertThat(Visitor.hidden(refused.asString(), "kept-action")).containsExactly("/members");
    assertThat(Visitor.hidden(refused.asString(), "kept.roles")).containsExactly("pilot");
    Response resumed = owner.post("/sign-in", carried);
    assertThat(resumed.asString()).contains("Go on with what you typed");
    Response form =
        owner.post(
            "/members", Map.of("resumed", "1", "name", "Ida \"Quill\" & Søn", "roles", "pilot"));
    assertThat(form.asString()).contains("Ida &quot;Quill&quot; &amp; Søn");
    assertThat(members.all(company.viewer(Role.OWNER)))
        .noneMatch(member -> member.name().startsWith("Ida"));
  }

  @Test
  void aFormWithoutItsTokenIsRefused() {
    Visitor owner = company.visitor(Role.OWNER);
    int status =
        io.restassured.RestAssured.given()
            .redirects()
            .follow(false)
            .contentType("application/x-www-form-urlencoded")
            .formParam("name", "x")
            .post("/sign-in")
            .statusCode();
    assertThat(status).isIn(400, 403);
    assertThat(owner.get("/members").statusCode()).isEqualTo(200);
  }

  @Test
  void passwordsAreKeptAsArgon2id() throws SQLException {
    try (var connection = TestDatabase.asSuperuser();
        var rows =
            connection
                .createStatement()
                .executeQuery("select password_hash from person where password_hash is not null")) {
      while (rows.next()) {
        assertThat(rows.getString(1)).startsWith("$argon2id$");
      }
    }
  }

  @Test
  void anOperatorKeepsAnOwner() {
    UUID owner = company.people().get(Role.OWNER);
    Visitor visitor = company.visitor(Role.OWNER);
    visitor.get("/members/" + owner);
    Response answer =
        visitor.post(
            "/members/" + owner + "/roles", Map.of("roles", List.of("pilot"), "reason", "Tired"));
    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat(answer.asString()).contains("An operator needs an owner");
  }

  @Test
  void onePageAnswersEachVisitorAsThemselves() {
    Company other = Company.founded("other-" + UUID.randomUUID(), operators, members);
    Visitor here = company.visitor(Role.OWNER);
    Visitor there = other.visitor(Role.OWNER);
    for (int i = 0; i < 2; i++) {
      assertThat(here.get("/members").asString())
          .contains("owner@" + company.name())
          .doesNotContain(other.name());
      assertThat(there.get("/members").asString())
          .contains("owner@" + other.name())
          .doesNotContain(company.name());
    }
  }

  @Test
  void aPasswordIsNeverCarriedInAPage() {
    Visitor pilot = company.visitor(Role.PILOT);
    pilot.get("/account");
    pilot.withoutSession();
    Response kept =
        pilot.post(
            "/account/password",
            Map.of("old-password", Company.PASSWORD, "new-password", "a secret of mine"));
    assertThat(kept.statusCode()).isEqualTo(401);
    assertThat(kept.asString()).doesNotContain(Company.PASSWORD, "a secret of mine");
  }

  @Test
  void aFormWhoseAnswerWasLostShowsAnotherPasswordUntilTheySignIn() {
    UUID form = UUID.randomUUID();
    Members.Welcome lost = taken(form);
    Members.Welcome again = taken(form);
    assertThat(again.personId()).isEqualTo(lost.personId());
    assertThat(signsIn(again.signInName(), lost.password())).isFalse();
    assertThat(signsIn(again.signInName(), again.password())).isTrue();
    assertThat(taken(form).password()).as("theirs by now").isNull();
    assertThat(signsIn(again.signInName(), again.password())).isTrue();
  }

  @Test
  void aFormThatDidNotMakeThePersonShowsNoPasswordOfTheirs() {
    Company other = Company.founded("other-" + UUID.randomUUID(), operators, members);
    Members.Welcome theirs = taken(UUID.randomUUID());
    UUID form = UUID.randomUUID();
    for (int sent = 1; sent <= 2; sent++) {
      Members.Welcome welcome =
          members.takeIn(
              other.viewer(Role.OWNER), "N. Late", theirs.signInName(), Set.of(Role.PILOT), form);
      assertThat(welcome.personId()).isEqualTo(theirs.personId());
      assertThat(welcome.password()).as("sent %s times", sent).isNull();
    }
    assertThat(signsIn(theirs.signInName(), theirs.password())).isTrue();
  }

  @Test
  void whoForgotTheirPasswordGetsAnotherByCommand() {
    Members.Welcome member = taken(UUID.randomUUID());
    Visitor phone = Visitor.signedIn(member.signInName(), member.password());
    String said = run(0, member.signInName().toUpperCase());
    assertThat(phone.get("/account").statusCode()).isEqualTo(303);
    assertThat(signsIn(member.signInName(), member.password())).isFalse();
    assertThat(
            signsIn(member.signInName(), said.replaceAll("(?s).* with (\\S+) from now on.*", "$1")))
        .isTrue();
    assertThat(run(2, "nobody-" + UUID.randomUUID())).contains("Nobody signs in as");
    assertThat(run(2)).contains("one sign-in name");
  }

  private Members.Welcome taken(UUID form) {
    return members.takeIn(
        company.viewer(Role.OWNER), "N. Late", "late-" + form, Set.of(Role.PILOT), form);
  }

  private static boolean signsIn(String name, String password) {
    return Visitor.atTheDoor()
            .post("/sign-in", Map.of("name", name, "password", password))
            .statusCode()
        == 303;
  }

  private String run(int code, String... arguments) {
    ByteArrayOutputStream said = new ByteArrayOutputStream();
    assertThat(command("password").run(List.of(arguments), new PrintStream(said))).isEqualTo(code);
    return said.toString();
  }

  private Command command(String name) {
    return commands.stream().filter(each -> each.name().equals(name)).findAny().orElseThrow();
  }
}
