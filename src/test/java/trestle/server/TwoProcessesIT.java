package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;

import io.restassured.response.Response;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import trestle.people.Visitor;

/**
 * Two processes of the packaged program on one PostgreSQL, as behind a load balancer: what one of
 * them files or ends, the other knows on its next answer. Begins on an empty installation and goes
 * by its pages alone.
 */
class TwoProcessesIT {
  private static final String PASSWORD = "four words of no account";

  private static OutsidePostgres database;
  private static AppProcess one;
  private static AppProcess two;
  private static Visitor owner;
  private static String aircraft;

  @BeforeAll
  static void beginEmpty() {
    database = OutsidePostgres.durable();
    one = new AppProcess.Builder().with(database.settings()).start().ready();
    two = new AppProcess.Builder().with(database.settings()).start().ready();
    owner = Visitor.atTheDoorOf(one.url());
    Map<String, String> first =
        Map.of(
            "code",
            printedCode(one),
            "name",
            "Ida Quill",
            "sign-in-name",
            "ida",
            "password",
            PASSWORD);
    assertThat(Visitor.leadsTo(owner.fillIn("/first-steps", "/first-steps", first)))
        .isEqualTo("/operators/new");
    Map<String, String> operator =
        Map.of("name", "Tern Air", "base", "Port Maddern", "time-zone", "America/St_Johns");
    assertThat(Visitor.leadsTo(owner.fillIn("/operators/new", "/operators", operator)))
        .isEqualTo("/members");
    Map<String, String> registered =
        Map.of(
            "registration", "QX-TRN",
            "type", "Skerry 200",
            "serial", "S-1",
            "on", "1 Jan 2026",
            "hours", "6,000",
            "landings", "2,000",
            "engines", "none");
    aircraft = Visitor.leadsTo(owner.fillIn("/aircraft/new", "/aircraft", registered));
  }

  @AfterAll
  static void stop() {
    one.close();
    two.close();
    database.close();
  }

  @Test
  void aFlightFiledOnOneShowsAtOnceOnTheOther() {
    Visitor there = Visitor.atTheDoorOf(two.url()).signIn("ida", PASSWORD);
    assertThat(there.get(aircraft).asString()).contains("6,000.0 h");
    assertThat(there.get("/fleet").asString()).contains("QX-TRN");

    String flight = log(owner, "2026-03-10", "10:18");
    assertThat(there.get(aircraft).asString()).contains("6,001.1 h").doesNotContain("6,000.0 h");
    assertThat(there.get(aircraft + "/flights").asString()).contains("09:12–10:18");
    assertThat(owner.get(aircraft).asString()).contains("6,001.1 h");

    Map<String, String> corrected = Map.of("landing", "11:12", "reason", "Misread");
    there.fillIn(flight + "/correction", "/correction", corrected);
    assertThat(owner.get(aircraft).asString()).contains("6,002.0 h").doesNotContain("6,001.1 h");
  }

  @Test
  void signingOutOnOneEndsTheSessionOnTheOther() {
    Visitor here = member("pia", "pilot");
    Visitor there = Visitor.atTheDoorOf(two.url()).withSessionOf(here);
    assertThat(there.get("/fleet").statusCode()).isEqualTo(200);
    assertThat(here.post("/sign-out", Map.of()).statusCode()).isEqualTo(303);
    assertThat(Visitor.leadsTo(there.get("/fleet"))).startsWith("/sign-in");
  }

  @Test
  void whomOneShutsOutTheOtherRefuses() {
    Visitor here = member("rob", "pilot");
    Visitor there = Visitor.atTheDoorOf(two.url()).withSessionOf(here);
    assertThat(there.get(aircraft + "/flights/new").statusCode()).isEqualTo(200);
    String page = memberPage("rob");
    assertThat(owner.fillIn(page, "/shut-out", Map.of()).statusCode()).isEqualTo(303);
    assertThat(Visitor.leadsTo(there.get("/fleet"))).startsWith("/sign-in");
    assertThat(there.post(aircraft + "/flights", Map.of()).statusCode()).isEqualTo(401);
  }

  @Test
  void aRoleTakenOnOneIsGoneOnTheOther() {
    Visitor here = member("sam", "controller");
    Visitor there = Visitor.atTheDoorOf(two.url()).withSessionOf(here);
    assertThat(there.get("/components/new").statusCode()).isEqualTo(200);
    Map<String, String> roles = Map.of("roles", "auditor", "reason", "Left the desk");
    assertThat(owner.fillIn(memberPage("sam"), "/roles", roles).statusCode()).isEqualTo(303);
    assertThat(there.get("/components/new").statusCode()).isEqualTo(403);
  }

  private static String printedCode(AppProcess app) {
    return found("the code is (\\S+)", app.output());
  }

  /** Logs a flight from 09:12, and gives its address. */
  private static String log(Visitor pilot, String date, String landing) {
    Response filed =
        pilot.fillIn(
            aircraft + "/flights/new",
            "/flights",
            Map.of(
                "date", date,
                "from", "Port Maddern",
                "to", "Skell Island",
                "take-off", "09:12",
                "landing", landing));
    return Visitor.leadsTo(filed).replaceAll("\\?.*", "");
  }

  /** A member taken in by the pages of process one, signed in there with the password shown. */
  private static Visitor member(String signInName, String role) {
    Map<String, String> asked =
        Map.of("name", "Member " + signInName, "sign-in-name", signInName, "roles", role);
    String page = owner.fillIn("/members/new", "/members", asked).asString();
    String password = found("<dt>Password</dt><dd class=\"serial\">([^<]+)</dd>", page);
    return Visitor.atTheDoorOf(one.url()).signIn(signInName, password);
  }

  private static String memberPage(String signInName) {
    String members = owner.get("/members").asString();
    return found("href=\"(/members/[0-9a-f-]{36})\"[^>]*>Member " + signInName, members);
  }

  private static String found(String pattern, String text) {
    Matcher matcher = Pattern.compile(pattern).matcher(text);
    assertThat(matcher.find()).as("%s in %s", pattern, text).isTrue();
    return matcher.group(1);
  }
}
