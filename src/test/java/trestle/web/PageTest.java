package trestle.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.endsWith;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.startsWith;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** The frame, the tags and a form's way there and back, on a page that has them all. */
@QuarkusTest
class PageTest {
  private static final Map<String, String> WRONG =
      Map.of("registration", "QX-SOR", "take-off", "09:12", "landing", "10:81");

  @Test
  void aRefusedFormComesBackAsTyped() {
    Response opened = given().get("/every-tag");
    Response answer = send(opened, token(opened), WRONG);
    answer
        .then()
        .statusCode(422)
        .body("html.head.title", startsWith("Error: "))
        .body(containsString("value=\"10:81\""))
        .body(containsString("<a href=\"#landing\">Landing must be a time, like 10:18</a>"))
        .body(containsString("id=\"landing-error\""));
    assertThat(hidden(answer, "form-key")).isEqualTo(hidden(opened, "form-key"));
  }

  @Test
  void whatIsTypedIsShownAndNothingElse() {
    Response opened = given().get("/every-tag");
    String nasty = "\"><script>alert(1)</script> & {title}";
    Response answer = send(opened, token(opened), Map.of("registration", nasty));
    assertThat(answer.asString()).doesNotContain("<script>alert").contains("{title}");
  }

  @Test
  void aFormWithAnOutdatedTokenIsAskedForAgainWithAllThatWasTyped() {
    Response opened = given().get("/every-tag");
    Response refused = send(opened, "outdated", WRONG);
    refused.then().statusCode(403).body(containsString("Please send this again"));
    assertThat(hidden(refused, "landing")).isEqualTo("10:81");
    assertThat(hidden(refused, "resumed")).isEqualTo("1");
    send(opened, token(refused), Map.of("resumed", "1", "registration", "QX-SOR"))
        .then()
        .statusCode(422)
        .body(containsString("value=\"QX-SOR\""));
  }

  @Test
  void aFormWithoutAnyCookieIsAskedForAgainToo() {
    given()
        .formParams(WRONG)
        .post("/every-tag")
        .then()
        .statusCode(403)
        .body(containsString("Please send this again"));
  }

  @Test
  void anotherSitesPageIsHeardNeitherWithNorWithoutToken() {
    Response opened = given().get("/every-tag");
    given()
        .cookies(opened.getCookies())
        .header("Sec-Fetch-Site", "cross-site")
        .formParam("csrf-token", token(opened))
        .post("/every-tag")
        .then()
        .statusCode(403)
        .body(containsString("This is not yours to do"));
  }

  @Test
  void formsInTwoWindowsDoNotDisturbEachOther() {
    Response first = given().get("/every-tag");
    Response second = given().cookies(first.getCookies()).get("/every-tag");
    assertThat(second.getCookies()).isEmpty();
    send(first, token(first), WRONG).then().statusCode(422);
    assertThat(token(second)).isEqualTo(token(first));
  }

  @Test
  void theTokenOfAnotherBrowserIsNoUse() {
    Response mine = given().get("/every-tag");
    send(mine, token(given().get("/every-tag")), WRONG).then().statusCode(403);
  }

  @Test
  void onlyAPageWithAFormGivesACookie() {
    assertThat(given().get("/assets/any/trestle.css").getCookies()).isEmpty();
    assertThat(given().get("/every-tag").getHeader("set-cookie"))
        .contains("HTTPOnly")
        .contains("SameSite=Lax");
  }

  @Test
  void theStyleIsKeptForGoodUnderItsHash() {
    String path = first("href=\"(/assets/[^\"]+css)\"", given().get("/every-tag"));
    String css =
        given()
            .get(path)
            .then()
            .statusCode(200)
            .contentType(startsWith("text/css"))
            .header("Cache-Control", endsWith("immutable"))
            .extract()
            .asString();
    Matcher font = Pattern.compile("url\\((/assets/[^)]+woff2)\\)").matcher(css);
    assertThat(font.results().map(found -> found.group(1)).toList())
        .hasSize(2)
        .allSatisfy(url -> given().get(url).then().statusCode(200).contentType("font/woff2"));
    given().get("/assets/old/trestle.css").then().header("Cache-Control", equalTo("no-cache"));
  }

  private static Response send(Response page, String token, Map<String, String> typed) {
    return given()
        .cookies(page.getCookies())
        .formParams(typed)
        .formParam("csrf-token", token)
        .formParam("form-key", hidden(page, "form-key"))
        .contentType("application/x-www-form-urlencoded; charset=UTF-8")
        .post("/every-tag");
  }

  private static String token(Response page) {
    return hidden(page, "csrf-token");
  }

  private static String hidden(Response page, String name) {
    return first("name=\"" + name + "\" value=\"([^\"]*)\"", page);
  }

  private static String first(String pattern, Response page) {
    Matcher found = Pattern.compile(pattern).matcher(page.asString());
    return found.find() ? found.group(1) : "";
  }
}
