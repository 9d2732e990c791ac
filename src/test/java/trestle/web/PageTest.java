package trestle.web;

import static io.restassured.RestAssured.given;
import static org.hamcrest.Matchers.containsString;

import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;

@QuarkusTest
class PageTest {
  @Test
  void everyTagRenders() {
    given().get("/every-tag").then().statusCode(200).body(containsString("QX-SOR"));
  }
}
