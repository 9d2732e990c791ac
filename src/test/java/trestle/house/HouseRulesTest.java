package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.lang.EvaluationResult;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.BiFunction;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The house keeps its rules, and each rule is shown to notice a sample that breaks it. */
class HouseRulesTest {
  private static final JavaClasses HOUSE =
      new ClassFileImporter()
          .withImportOption(new ImportOption.DoNotIncludeTests())
          .importPackages("trestle");

  record Rule(
      String name, BiFunction<HouseRules, JavaClasses, EvaluationResult> check, String... broken) {
    @Override
    public String toString() {
      return name;
    }
  }

  static Stream<Rule> rules() {
    return Stream.of(
        new Rule(
            "reckoning is pure",
            (house, code) -> house.reckoningIsPure().evaluate(code),
            """
            package broken.reckoning;
            public class Stores { jakarta.persistence.EntityManager database; }
            """),
        new Rule(
            "rooms use only rooms below",
            HouseRules::roomsUseOnlyRoomsBelow,
            """
            package broken.fleet;
            public class Looks { broken.flights.Up up; }
            """,
            """
            package broken.flights;
            public class Up {}
            """),
        new Rule(
            "no room touches another's entities or repositories",
            (house, code) -> house.noRoomTouchesAnothersEntities().evaluate(code),
            """
            package broken.fleet;
            @jakarta.persistence.Entity public class Shown { @jakarta.persistence.Id int id; }
            """),
        new Rule(
            "only repositories ask the database",
            (house, code) -> house.onlyRepositoriesAskTheDatabase().evaluate(code),
            """
            package broken.fleet;
            public class Asks { jakarta.persistence.EntityManager database; }
            """),
        new Rule(
            "only pages make templates",
            (house, code) -> house.onlyPagesMakeTemplates().evaluate(code),
            """
            package broken.fleet;
            public class Draws { io.quarkus.qute.TemplateInstance drawn; }
            """),
        new Rule(
            "no API shows an entity",
            (house, code) -> house.noApiShowsAnEntity().evaluate(code),
            """
            package broken.fleet;
            public class FleetApi { Row row; }
            """,
            """
            package broken.fleet;
            @jakarta.persistence.Entity class Row { @jakarta.persistence.Id int id; }
            """),
        new Rule(
            "only the clock reads the clock",
            (house, code) -> house.onlyTheClockReadsTheClock().evaluate(code),
            """
            package broken.fleet;
            public class Reads { java.time.Instant at = java.time.Instant.now(); }
            """),
        new Rule(
            "every route says who may",
            (house, code) -> house.everyRouteSaysWhoMay().evaluate(code),
            """
            package broken.fleet;
            public class OpenPages { @jakarta.ws.rs.GET public String all() { return ""; } }
            """),
        new Rule(
            "every page is made for its request",
            (house, code) -> house.everyPageIsMadeForItsRequest().evaluate(code),
            """
            package broken.fleet;
            @jakarta.ws.rs.Path("/kept") public class KeptPages { trestle.web.Viewer first; }
            """),
        new Rule(
            "every POST names its media type",
            (house, code) -> house.everyPostNamesItsMediaType().evaluate(code),
            """
            package broken.fleet;
            public class TakesPages { @jakarta.ws.rs.POST public String all() { return ""; } }
            """),
        new Rule(
            "transactions only on use cases",
            (house, code) -> house.transactionsOnlyOnUseCases().evaluate(code),
            """
            package broken.fleet;
            public class OpensPages { @trestle.web.Filing public void file() {} }
            """),
        new Rule(
            "overview files nothing",
            (house, code) -> house.overviewFilesNothing().evaluate(code),
            """
            package broken.overview;
            public class Writes { @trestle.web.Filing public void file() {} }
            """));
  }

  @ParameterizedTest
  @MethodSource("rules")
  void theHouseKeeps(Rule rule) {
    EvaluationResult result = rule.check().apply(new HouseRules("trestle"), HOUSE);
    assertThat(result.getFailureReport().getDetails()).as(rule.name()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource("rules")
  void aBrokenSampleIsNoticed(Rule rule, @TempDir Path folder) throws IOException {
    JavaClasses sample = Samples.compiled(folder, rule.broken());
    assertThat(rule.check().apply(new HouseRules("broken"), sample).hasViolation()).isTrue();
  }

  @Test
  void theListOfRoomsIsTheFoldersThatThereAre() throws IOException {
    Path house = Path.of("src/main/java/trestle");
    try (Stream<Path> folders = Files.list(house)) {
      List<String> rooms =
          folders.filter(Files::isDirectory).map(room -> room.getFileName().toString()).toList();
      assertThat(rooms).containsExactlyInAnyOrderElementsOf(HouseRules.ROOMS);
      assertThat(rooms)
          .allSatisfy(room -> assertThat(house.resolve(room + "/package-info.java")).exists());
    }
  }

  /** What contributors are told is how the house is. */
  @Test
  void theGuideNamesTheRoomsInTheirOrder() throws IOException {
    String guide = Files.readString(Path.of("DEVELOPERS.md"));
    String table = guide.substring(guide.indexOf("| room |"), guide.indexOf("| a line that"));
    List<String> named =
        Pattern.compile("(?m)^\\| `([a-z]+)` \\|")
            .matcher(table)
            .results()
            .map(row -> row.group(1))
            .toList();
    assertThat(named).isEqualTo(HouseRules.ROOMS);
  }
}
