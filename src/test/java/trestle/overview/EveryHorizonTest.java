package trestle.overview;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import trestle.web.Axe;
import trestle.web.Browser;

/** What the horizon promises of its labels, measured in a browser with the real letters. */
@QuarkusTest
class EveryHorizonTest {
  @RegisterExtension static final Browser browser = new Browser();

  /** Labels that touch another, or leave their drawing. */
  private static final String IN_THE_WAY =
      "[...document.querySelectorAll('.horizon > svg')].flatMap(drawing => {"
          + " const box = drawing.getBoundingClientRect();"
          + " const shown = [...drawing.querySelectorAll('text')]"
          + "   .map(text => ({text: text.textContent, box: text.getBoundingClientRect()}))"
          + "   .filter(label => label.box.width > 0);"
          + " return shown.filter((a, i) => a.box.left < box.left - 1 || a.box.right > box.right + 1"
          + "   || shown.some((b, j) => j > i && a.box.left < b.box.right"
          + "     && b.box.left < a.box.right)).map(label => label.text); })";

  private static final String SHOWN =
      "[...document.querySelectorAll('.horizon > svg text')]"
          + ".filter(text => text.getBoundingClientRect().width > 0).length";

  @TestHTTPResource("/every-horizon")
  String url;

  @ParameterizedTest
  @ValueSource(ints = {320, 480, 700, 1000, 1600})
  void labelsNeverTouch(int width) {
    Page page = opened(width, ColorScheme.LIGHT);
    assertThat((List<?>) page.evaluate(IN_THE_WAY)).isEmpty();
    assertThat((Integer) page.evaluate(SHOWN)).isGreaterThan(40);
  }

  @ParameterizedTest
  @CsvSource({"360, LIGHT", "1280, DARK"})
  void horizonsAreAccessible(int width, ColorScheme scheme) {
    Page page = opened(width, scheme);
    page.screenshot(
        new Page.ScreenshotOptions()
            .setFullPage(true)
            .setPath(Path.of("target/pictures/horizons-" + width + "-" + scheme + ".png")));
    assertThat(Axe.violations(page)).isEmpty();
  }

  private Page opened(int width, ColorScheme scheme) {
    Page page = browser.page(width, scheme);
    page.navigate(url);
    page.evaluate("document.fonts.ready.then(() => true)");
    return page;
  }
}
