package trestle.records;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManagerFactory;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import trestle.ledger.Filed;
import trestle.ledger.FiledJson;
import trestle.ledger.Kind;
import trestle.records.RecordKind.Way;

/** The list of kinds, and docs/corrections.md, hold every class that is filed. */
@QuarkusTest
class RecordKindsTest {
  private static final Path DOCUMENT = Path.of("docs/corrections.md");

  @Inject EntityManagerFactory entities;

  @Test
  void everyKindThatIsFiledHasItsWay() {
    assertThat(RecordKinds.ALL.stream().map(RecordKind::kind).toList())
        .doesNotHaveDuplicates()
        .containsExactlyInAnyOrderElementsOf(
            kinds().map(type -> type.getAnnotation(Kind.class).value()).toList());
  }

  @Test
  void whatAKindSaysOfItselfAreColumnsOfIt() {
    kinds()
        .forEach(
            type -> {
              RecordKind kind = RecordKinds.of(type.getAnnotation(Kind.class).value());
              assertThat(FiledJson.columns(type)).as(kind.kind()).containsAll(kind.says());
            });
  }

  /** One that is taken away has the column that says so. */
  @Test
  void whatIsTakenAwayCanBe() {
    kinds()
        .filter(type -> RecordKinds.of(word(type)).way() == Way.TAKEN_AWAY)
        .forEach(
            type ->
                assertThat(FiledJson.columns(type)).as(word(type)).containsAnyOf("voided", "void"));
  }

  @Test
  void theDocumentSaysTheSame() throws IOException {
    assertThat(Files.readString(DOCUMENT)).contains(table());
  }

  private Stream<Class<? extends Filed>> kinds() {
    return entities.getMetamodel().getEntities().stream()
        .map(entity -> entity.getJavaType())
        .filter(Filed.class::isAssignableFrom)
        .map(type -> type.asSubclass(Filed.class));
  }

  private static String word(Class<?> type) {
    return type.getAnnotation(Kind.class).value();
  }

  static String table() {
    List<String> rows =
        RecordKinds.ALL.stream()
            .map(
                kind ->
                    "| `%s` | %s | %s | %s |"
                        .formatted(kind.kind(), kind.words(), kind.way().words(), kind.how()))
            .toList();
    return "| kind | what it is | put right by | how |\n| --- | --- | --- | --- |\n"
        + rows.stream().collect(Collectors.joining("\n"))
        + "\n";
  }

  /** Writes the table of docs/corrections.md. */
  public static void main(String[] none) {
    System.out.print(table());
  }
}
