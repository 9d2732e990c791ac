package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** Every example of docs/reckoning.md, computed. */
class ReckoningDocumentTest {

  private static final Path DOCUMENT = Path.of("docs", "reckoning.md");
  private static final Pattern EXAMPLE =
      Pattern.compile("```json asked\n(.*?)```\n\n```json answered\n(.*?)```", Pattern.DOTALL);

  private record Example(String under, String asked, String answered) {}

  @TestFactory
  Stream<DynamicTest> answersAsTheDocumentSays() throws IOException {
    return examples().stream()
        .map(
            example ->
                DynamicTest.dynamicTest(
                    example.under,
                    () -> {
                      JsonNode answer = Asked.of(example.asked).answer();
                      assertThat(answer)
                          .as(answer.toPrettyString())
                          .isEqualTo(Asked.tree(example.answered));
                    }));
  }

  /** A fence that the pattern misses would be an example nobody computes. */
  @Test
  void everyBlockIsPartOfAnExample() throws IOException {
    String text = Files.readString(DOCUMENT);
    assertThat(examples()).hasSizeGreaterThan(12);
    assertThat(text.split("```json", -1).length - 1).isEqualTo(examples().size() * 2);
    assertThat(text.split("```", -1).length - 1).isEqualTo(examples().size() * 4);
  }

  private static List<Example> examples() throws IOException {
    String text = Files.readString(DOCUMENT);
    List<Example> examples = new ArrayList<>();
    Matcher matcher = EXAMPLE.matcher(text);
    while (matcher.find()) {
      String before = text.substring(0, matcher.start());
      String heading = before.substring(before.lastIndexOf("\n## ") + 4).lines().findFirst().get();
      examples.add(new Example(heading, matcher.group(1), matcher.group(2)));
    }
    return examples;
  }
}
