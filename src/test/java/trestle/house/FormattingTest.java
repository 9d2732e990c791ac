package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.googlejavaformat.java.Formatter;
import com.google.googlejavaformat.java.FormatterException;
import com.google.googlejavaformat.java.ImportOrderer;
import com.google.googlejavaformat.java.JavaFormatterOptions;
import com.google.googlejavaformat.java.RemoveUnusedImports;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * All Java here is as google-java-format writes it, in the version that {@code mvn spotless:apply}
 * runs: pom.xml names it once for both.
 */
class FormattingTest {
  private static final Formatter FORMATTER = new Formatter();

  @Test
  void everySourceIsFormatted() throws IOException {
    List<Path> odd = new ArrayList<>();
    try (Stream<Path> files = Files.walk(Path.of("src"))) {
      for (Path file : files.filter(path -> path.toString().endsWith(".java")).toList()) {
        if (!isFormatted(Files.readString(file))) {
          odd.add(file);
        }
      }
    }
    assertThat(odd).as("mvn spotless:apply puts these right").isEmpty();
  }

  @Test
  void badlyFormattedSourceIsNoticed() {
    String good = "class Sample {\n  int one() {\n    return 1;\n  }\n}\n";
    assertThat(isFormatted(good)).isTrue();
    assertThat(isFormatted(good.replace("  int", "\tint"))).as("a tab").isFalse();
    assertThat(isFormatted(good.replace("() {", "()\n  {"))).as("a brace").isFalse();
    assertThat(isFormatted("import java.util.List;\n\n" + good)).as("an unused import").isFalse();
    assertThat(isFormatted(good.replace("return 1;", "return 1 + ".repeat(30) + "1;")))
        .as("what is no Java")
        .isFalse();
  }

  private static boolean isFormatted(String source) {
    try {
      String tidy =
          RemoveUnusedImports.removeUnusedImports(
              ImportOrderer.reorderImports(source, JavaFormatterOptions.Style.GOOGLE));
      return source.equals(FORMATTER.formatSource(tidy));
    } catch (FormatterException e) {
      return false;
    }
  }
}
