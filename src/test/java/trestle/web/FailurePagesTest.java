package trestle.web;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.not;

import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import jakarta.inject.Inject;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;

@QuarkusTest
class FailurePagesTest {
  @Inject Operators operators;
  @Inject Members members;

  @TestHTTPResource("/")
  URI home;

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "/failing/stale | 409 | Look at both.",
        "/failing/not-here | 404 | There is no aircraft QX-ZZZ.",
        "/failing/refused | 422 | A retired aircraft flies no more.",
        "/failing/otherwise | 500 | name this reference",
        "/there-is-no-such-page | 404 | Nothing here",
        "/every-tag/nor-this | 404 | Nothing here",
        "/assets/x/none.css | 404 | There is no such file.",
      })
  void failuresAreAnsweredInWords(String path, int status, String words) {
    isPage(given().get(path).then(), status).body(containsString(words));
  }

  @Test
  void aFailureTellsNothingOfTheInside() {
    given()
        .get("/failing/otherwise")
        .then()
        .body(not(containsString("secret")))
        .body(not(containsString("Exception")))
        .body(not(containsString("trestle.web")));
  }

  @Test
  void anotherMethodIsRefusedInWords() {
    isPage(given().delete("/every-tag").then(), 405).body(containsString("Not like this"));
  }

  @Test
  void anotherMediaTypeIsRefusedInWords() {
    isPage(given().contentType("text/plain").body("x").post("/every-tag").then(), 415);
  }

  @Test
  void whatOneMayNotDoSaysWhoMay() {
    Company company = Company.founded("failing-" + UUID.randomUUID(), operators, members);
    isPage(company.visitor(Role.PILOT).get("/failing/x/owners-only").then(), 403)
        .body(containsString("This may be done by: owner or controller."))
        .body(containsString("pilot, pilot"))
        .body(containsString("Sign out"));
  }

  @Test
  void aPageOfTenMegabytesIsRefusedInWordsAndHeardOut() throws Exception {
    HttpResponse<String> answer =
        HttpClient.newHttpClient()
            .send(
                HttpRequest.newBuilder(home.resolve("/every-tag"))
                    .header("Content-Type", "application/x-www-form-urlencoded")
                    .POST(HttpRequest.BodyPublishers.ofString("remarks=" + "x".repeat(10 << 20)))
                    .build(),
                HttpResponse.BodyHandlers.ofString());
    assertThat(answer.statusCode()).isEqualTo(413);
    assertThat(answer.body()).contains("A page may carry at most 2 MB.");
  }

  @Test
  void underTheApiTheyAreProblems() {
    given()
        .get("/api/v1/there-is-no-such-thing")
        .then()
        .statusCode(404)
        .contentType(Problem.MEDIA_TYPE);
  }

  private static ValidatableResponse isPage(ValidatableResponse answer, int status) {
    return answer
        .statusCode(status)
        .contentType("text/html;charset=UTF-8")
        .header("Cache-Control", "no-store")
        .header("Content-Security-Policy", containsString("default-src 'none'"))
        .body(containsString("<main id=\"main\""));
  }
}
