package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * What stands in quotes in a tag's parameter is printed as it is: an expression there would reach
 * the page as braces, and a form would be sent to no address at all.
 */
class TemplatesTest {
  private static final Pattern QUOTED_EXPRESSION =
      Pattern.compile("\\{#[a-zA-Z]+ [^\n]*?[\\w-]+=\"[^\"]*\\{[^\"]*\"");

  @Test
  void noTagHasAnExpressionInQuotes() throws IOException {
    try (Stream<Path> files = Files.walk(Path.of("src/main/resources/templates"))) {
      for (Path file : files.filter(path -> path.toString().endsWith(".html")).toList()) {
        assertThat(quoted(Files.readString(file))).as(file.toString()).isEmpty();
      }
    }
  }

  @Test
  void aQuotedExpressionIsNoticed() {
    assertThat(quoted("{#form action=\"/members/{id}/roles\" form=form}")).hasSize(1);
    assertThat(quoted("{#form action=str:concat('/members/',id) form=form}")).isEmpty();
    assertThat(quoted("{#if ready}<a href=\"/members/{id}\">{/if}")).isEmpty();
  }

  private static List<String> quoted(String template) {
    return QUOTED_EXPRESSION
        .matcher(template)
        .results()
        .map(MatchResult::group)
        .filter(TemplatesTest::insideTheTag)
        .toList();
  }

  /** Not where the tag was closed before the attribute began, which is then plain HTML. */
  private static boolean insideTheTag(String found) {
    String before = found.substring(2, found.lastIndexOf('=', found.indexOf("=\"")));
    int depth = 1;
    for (char c : before.toCharArray()) {
      depth += c == '{' ? 1 : c == '}' ? -1 : 0;
      if (depth == 0) {
        return false;
      }
    }
    return true;
  }
}
