package trestle.web;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Page;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;

/** Asks axe-core for what it finds wrong on a page, by the rules of WCAG 2.2 A and AA. */
public final class Axe {
  private static final List<String> RULES =
      List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice");
  private static final String RUN =
      "asked => axe.run(document, {runOnly: asked, resultTypes: ['violations'], selectors: false})"
          + ".then(found => found.violations.flatMap(rule =>"
          + " rule.nodes.map(node => rule.id + ': ' + rule.help + ': ' + node.html)))";
  private static final String SOURCE = source();

  /** One line a finding: rule, what it says, where. Empty is what a test wants. */
  public static List<String> violations(Page page) {
    return run(page, "tag", RULES);
  }

  /** The same by the one rule that depends on colours. */
  public static List<String> contrast(Page page) {
    return run(page, "rule", List.of("color-contrast"));
  }

  /** The script is put into a page once, and asked as often as the page is looked at. */
  @SuppressWarnings("unchecked")
  private static List<String> run(Page page, String type, List<String> values) {
    if (!(Boolean) page.evaluate("'axe' in window")) {
      page.evaluate(SOURCE);
    }
    return (List<String>) page.evaluate(RUN, Map.of("type", type, "values", values));
  }

  private static String source() {
    try (InputStream script = AxeBuilder.class.getResourceAsStream("/axe.min.js")) {
      return new String(script.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private Axe() {}
}
