package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** docs/operations.md says what the code does: settings, their defaults, commands. */
class OperationsDocumentTest {
  private static final Pattern SETTING_ROW =
      Pattern.compile("^\\| `([A-Z_]+)` \\| (?:`([^`]*)`)? ?\\| .*", Pattern.MULTILINE);
  private static final Pattern COMMAND_ROW =
      Pattern.compile("^\\| `([a-z ]+)` \\| (.*) \\|$", Pattern.MULTILINE);

  /** As rooms have them injected, and as the server room writes them before injection works. */
  private static final Pattern INJECTED =
      Pattern.compile("@ConfigProperty\\(\\s*name = \"(trestle\\.[a-z.-]+)\"");

  private static final Pattern WRITTEN = Pattern.compile("\"(trestle\\.[a-z.-]+)\"");

  /** Set by the program for itself, or by its build in java.options. */
  private static final Set<String> ITS_OWN =
      Set.of("TRESTLE_BUILT_IN", "TRESTLE_MIGRATIONS", "TRESTLE_POSTGRES_PROGRAMS");

  @Test
  void everySettingOfOurOwnIsDocumentedAndNoOther() throws IOException {
    Set<String> documented = new TreeSet<>(documentedSettings().keySet());
    documented.removeIf(name -> !name.startsWith("TRESTLE_"));
    assertThat(documented).isEqualTo(settingsInCode());
  }

  @Test
  void documentedDefaultsAreThoseOfTheProgram() throws IOException {
    Map<String, String> inProperties = applicationProperties();
    Map<String, String> byOthers =
        Map.of(
            "TRESTLE_DATA_DIR", DatabaseChoice.DEFAULT_DIRECTORY,
            "QUARKUS_HTTP_PORT", "8080",
            "QUARKUS_HTTP_PROXY_PROXY_ADDRESS_FORWARDING", "false");
    documentedSettings()
        .forEach(
            (name, value) ->
                assertThat(inProperties.getOrDefault(name, byOthers.getOrDefault(name, "")))
                    .as(name)
                    .isEqualTo(value));
  }

  @Test
  void documentedCommandsAreThoseOfTheProgram() throws IOException {
    Map<String, String> documented = new TreeMap<>();
    Matcher rows = COMMAND_ROW.matcher(document().split("## Settings")[0]);
    while (rows.find()) {
      documented.put(rows.group(1), rows.group(2));
    }
    assertThat(documented).isEqualTo(new TreeMap<>(CommandLine.COMMANDS));
  }

  private static Map<String, String> documentedSettings() throws IOException {
    Map<String, String> documented = new TreeMap<>();
    Matcher rows = SETTING_ROW.matcher(document());
    while (rows.find()) {
      documented.put(rows.group(1), rows.group(2) == null ? "" : rows.group(2));
    }
    assertThat(documented).hasSizeGreaterThan(10);
    return documented;
  }

  private static Set<String> settingsInCode() throws IOException {
    Set<String> found = new TreeSet<>();
    try (Stream<Path> sources = Files.walk(Path.of("src", "main", "java"))) {
      for (Path source : sources.filter(path -> path.toString().endsWith(".java")).toList()) {
        boolean ours = source.getParent().endsWith("server");
        Matcher names = (ours ? WRITTEN : INJECTED).matcher(Files.readString(source));
        while (names.find()) {
          found.add(asVariable(names.group(1)));
        }
      }
    }
    found.removeAll(ITS_OWN);
    return found;
  }

  private static Map<String, String> applicationProperties() throws IOException {
    Properties properties = new Properties();
    try (InputStream in =
        Files.newInputStream(Path.of("src", "main", "resources", "application.properties"))) {
      properties.load(in);
    }
    Map<String, String> byVariable = new TreeMap<>();
    properties.forEach((name, value) -> byVariable.put(asVariable((String) name), (String) value));
    return byVariable;
  }

  private static String asVariable(String setting) {
    return setting.replaceAll("[^A-Za-z0-9]", "_").toUpperCase(Locale.ROOT);
  }

  private static String document() throws IOException {
    return Files.readString(Path.of("docs", "operations.md"));
  }
}
