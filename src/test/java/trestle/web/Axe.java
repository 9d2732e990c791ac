package trestle.web;

import com.deque.html.axecore.playwright.AxeBuilder;
import com.microsoft.playwright.Page;
import java.util.List;

/** Asks axe-core for what it finds wrong on a page, by the rules of WCAG 2.2 A and AA. */
public final class Axe {
  private static final List<String> RULES =
      List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice");

  /** One line a finding: rule, what it says, where. Empty is what a test wants. */
  public static List<String> violations(Page page) {
    return new AxeBuilder(page)
        .withTags(RULES).analyze().getViolations().stream()
            .flatMap(
                rule ->
                    rule.getNodes().stream()
                        .map(node -> rule.getId() + ": " + rule.getHelp() + ": " + node.getHtml()))
            .toList();
  }

  private Axe() {}
}
