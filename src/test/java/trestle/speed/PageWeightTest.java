package trestle.speed;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.net.URI;
import java.util.List;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import trestle.people.Company;
import trestle.web.Role;

/** What a pilot opens comes over a poor connection: a page and its style are a few packets. */
@QuarkusTest
class PageWeightTest {
  private static final int MOST = 14_000;
  private static final Pattern STYLE =
      Pattern.compile("<link rel=\"stylesheet\" href=\"([^\"]+)\"");
  private static final Pattern ELSEWHERE = Pattern.compile("(?:src|href|action)=\"(?:https?:)?//");

  @Inject LargeFleet large;

  @TestHTTPResource("/")
  URI address;

  @Test
  void aPilotsPageAndItsStyleAreSmall() throws Exception {
    LargeFleet.Made made = large.make("weight-" + UUID.randomUUID(), 5, 20, 10);
    String aircraft = "/aircraft/" + made.aircraft().get(0);
    String url = address.toString().replaceAll("/$", "");
    Drive pilot =
        Drive.signedIn(url, Role.PILOT.word() + "@" + made.company().name(), Company.PASSWORD);
    for (String path :
        List.of(
            "/sign-in",
            "/fleet",
            "/due-list",
            "/trip-check",
            "/account",
            aircraft,
            aircraft + "/flights",
            aircraft + "/flights/new",
            aircraft + "/fuel-and-oil",
            aircraft + "/groundings",
            aircraft + "/trip-check")) {
      String page = pilot.text(path);
      Matcher style = STYLE.matcher(page);
      assertThat(style.find()).as("%s names its style:%n%s", path, page).isTrue();
      assertThat(pilot.bytes(path)).as(path).isLessThan(page.length());
      assertThat(pilot.bytes(path) + pilot.bytes(style.group(1))).as(path).isLessThan(MOST);
      assertThat(ELSEWHERE.matcher(page).find()).as("%s asks another host", path).isFalse();
    }
    for (String path : List.of(aircraft + "/reports/new", "/defects/new", "/abnormal-events/new")) {
      String page = pilot.text(path);
      assertThat(page).as(path).contains("<style>").doesNotContain("rel=\"stylesheet\"");
      assertThat(pilot.bytes(path)).as(path).isLessThan(MOST);
      assertThat(ELSEWHERE.matcher(page).find()).as("%s asks another host", path).isFalse();
    }
  }
}
