package trestle.programme;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.empty;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.startsWith;

import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.ValidatableResponse;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.Socket;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;

/** The stateless check over HTTP: what only HTTP can get wrong. */
@QuarkusTest
class ReckoningApiTest {

  private static final String PATH = "/api/v1/reckonings";
  private static final String CASE =
      """
      { "asOf": "2026-03-31", "usage": { "hours": "1000" },
        "rule": { "limits": [ { "counter": "hours", "at": "1500" } ] } }
      """;

  @TestHTTPResource(PATH)
  URL url;

  @Test
  void answersWithoutSignIn() {
    post("application/json", CASE)
        .statusCode(200)
        .contentType(startsWith("application/json"))
        .body("limits[0].remaining", equalTo("500"));
    post("application/json; charset=utf-8", "[]").statusCode(200).body("$", empty());
  }

  @Test
  void tellsAllThatIsWrong() {
    problem(post("application/json", "{\"asOf\":\"2026-02-30\",\"rule\":{\"limits\":[]}}"), 400)
        .body("errors", hasSize(2))
        .body("errors[0].field", equalTo("/asOf"))
        .body("errors[0].value", equalTo("2026-02-30"))
        .body("errors[1].field", equalTo("/rule/limits"));
  }

  @Test
  void takesExactlyOneMebibyteAndNoMore() {
    String body = CASE + " ".repeat((1 << 20) - CASE.length());
    post("application/json", body).statusCode(200);
    problem(post("application/json", body + " "), 413);
  }

  @Test
  void refusesABodyOfTenMegabytesWithAProblemToo() {
    problem(post("application/json", " ".repeat(10_000_000)), 413);
  }

  /** Only the head of the request is sent: whoever waited for the body would wait for ever. */
  @Test
  void refusesAnAnnouncedGiantWithoutReadingIt() throws IOException {
    try (Socket socket = new Socket(url.getHost(), url.getPort())) {
      socket.setSoTimeout(10_000);
      String head =
          "POST "
              + PATH
              + " HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
              + "Content-Length: 1048577\r\n\r\n";
      OutputStream out = socket.getOutputStream();
      out.write(head.getBytes(StandardCharsets.US_ASCII));
      out.flush();
      InputStream in = socket.getInputStream();
      byte[] start = in.readNBytes("HTTP/1.1 413".length());
      org.assertj.core.api.Assertions.assertThat(new String(start, StandardCharsets.US_ASCII))
          .isEqualTo("HTTP/1.1 413");
    }
  }

  /** Sent in chunks nothing announces the length. */
  @Test
  void refusesAnUnannouncedGiant() throws IOException {
    try (Socket socket = new Socket(url.getHost(), url.getPort())) {
      socket.setSoTimeout(10_000);
      OutputStream out = socket.getOutputStream();
      String head =
          "POST "
              + PATH
              + " HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\n"
              + "Transfer-Encoding: chunked\r\n\r\n";
      out.write(head.getBytes(StandardCharsets.US_ASCII));
      byte[] chunk =
          ("10000\r\n" + " ".repeat(0x10000) + "\r\n").getBytes(StandardCharsets.US_ASCII);
      for (int i = 0; i < 17; i++) {
        out.write(chunk);
      }
      out.flush();
      byte[] start = socket.getInputStream().readNBytes("HTTP/1.1 413".length());
      org.assertj.core.api.Assertions.assertThat(new String(start, StandardCharsets.US_ASCII))
          .isEqualTo("HTTP/1.1 413");
    }
  }

  @Test
  void refusesOtherMediaTypesMethodsAndPathsWithProblems() {
    problem(post("text/plain", CASE), 415);
    problem(post("application/xml", CASE), 415);
    problem(given().get(PATH).then(), 405);
    problem(given().put(PATH).then(), 405);
    problem(given().get("/api/v1/nothing-here").then(), 404);
    problem(
        given().contentType("application/json").accept("text/html").body(CASE).post(PATH).then(),
        406);
  }

  private static ValidatableResponse post(String mediaType, String body) {
    return given()
        .contentType(mediaType)
        .body(body.getBytes(StandardCharsets.UTF_8))
        .post(PATH)
        .then();
  }

  private static ValidatableResponse problem(ValidatableResponse response, int status) {
    return response
        .statusCode(status)
        .contentType(startsWith("application/problem+json"))
        .body("status", equalTo(status));
  }
}
