package trestle.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The frame, and every tag, seen through a browser. */
@QuarkusTest
class EveryTagTest {
  @RegisterExtension static final Browser browser = new Browser();

  private static final String WIDER_THAN_THE_SCREEN =
      "document.documentElement.scrollWidth > document.documentElement.clientWidth";
  private static final String SMALL_TARGETS =
      "[...document.querySelectorAll('main :is(input:not([type=hidden],[type=radio],"
          + "[type=checkbox]), select, textarea, .button)')]"
          + ".filter(e => e.getBoundingClientRect().height < 43.9).map(e => e.outerHTML)";

  @TestHTTPResource("/every-tag")
  String url;

  @ParameterizedTest
  @CsvSource({"360, LIGHT", "360, DARK", "1280, LIGHT", "1280, DARK"})
  void everyTagIsAccessibleAndFits(int width, ColorScheme scheme) {
    Page page = browser.page(width, scheme);
    page.navigate(url);
    assertFine(page, "tags-" + width + "-" + scheme);
    sendWrong(page);
    assertThat(page.title()).startsWith("Error: ");
    assertFine(page, "tags-wrong-" + width + "-" + scheme);
  }

  @Test
  void aFormComesBackAsTypedWithoutScript() {
    Page page = browser.withoutScript(Browser.PHONE);
    page.navigate(url);
    sendWrong(page);
    assertThat(page.inputValue("#landing")).isEqualTo("10:81");
    assertThat(page.locator("#landing-error").textContent())
        .contains("Landing must be a time, like 10:18");
  }

  @Test
  void nothingIsAskedOfAnotherHostAndNothingIsRefusedByThePolicy() {
    Page page = browser.desk();
    List<String> asked = new ArrayList<>();
    List<String> complaints = new ArrayList<>();
    page.onRequest(request -> asked.add(request.url()));
    page.onConsoleMessage(message -> complaints.add(message.text()));
    page.navigate(url);
    page.evaluate("document.fonts.ready.then(() => true)");
    String host = url.substring(0, url.indexOf("/every-tag"));
    assertThat(asked).hasSizeGreaterThan(3).allSatisfy(one -> assertThat(one).startsWith(host));
    assertThat(complaints).isEmpty();
  }

  private static void sendWrong(Page page) {
    page.fill("#registration", "QX-SOR");
    page.fill("#landing", "10:81");
    page.click("main form button");
    page.waitForLoadState();
  }

  private static void assertFine(Page page, String name) {
    page.evaluate("document.fonts.ready.then(() => true)");
    page.screenshot(
        new Page.ScreenshotOptions()
            .setFullPage(true)
            .setPath(Path.of("target/pictures/" + name + ".png")));
    assertThat(Axe.violations(page)).as(name).isEmpty();
    assertThat((Boolean) page.evaluate(WIDER_THAN_THE_SCREEN)).as(name).isFalse();
    assertThat((List<?>) page.evaluate(SMALL_TARGETS)).as(name).isEmpty();
  }
}
