package trestle.web;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;

/** The tools that page tests look through must themselves see. */
class BrowserTest {
  private static final String FINE =
      "<!doctype html><html lang=en><title>Fine</title><main><h1>Fine</h1></main>";
  private static final String STRICT_POLICY =
      "<meta http-equiv=Content-Security-Policy content=\"default-src 'none'\">";

  @RegisterExtension static final Browser browser = new Browser();

  @Test
  void axeFindsNothingOnAFinePage() {
    Page page = browser.phone();
    page.setContent(FINE);
    assertThat(Axe.violations(page)).isEmpty();
  }

  @Test
  void axeFindsAPictureWithoutWordsAlsoUnderAStrictPolicy() {
    Page page = browser.desk();
    page.setContent(
        FINE.replace("<title>", STRICT_POLICY + "<title>")
            + "<img src='data:image/gif;base64,R0lGODlhAQABAAAAACw='>");
    assertThat(Axe.violations(page)).anyMatch(found -> found.startsWith("image-alt"));
  }

  @Test
  void pagesHaveTheWidthAndSchemeAskedFor() {
    Page page = browser.page(Browser.PHONE, ColorScheme.DARK);
    page.setContent("<meta name=viewport content='width=device-width'>");
    assertThat(page.evaluate("innerWidth")).isEqualTo(360);
    assertThat(page.evaluate("matchMedia('(prefers-color-scheme: dark)').matches")).isEqualTo(true);
  }

  @Test
  void withoutScriptNothingRuns() {
    Page page = browser.withoutScript(Browser.DESK);
    page.setContent("<p>as sent</p><script>document.body.textContent = 'changed'</script>");
    assertThat(page.textContent("p")).isEqualTo("as sent");
  }
}
