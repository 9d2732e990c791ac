package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import trestle.speed.Drive;

/** A loading of the demo that a power cut ends is done anew, and its people can sign in. */
class InterruptedDemoIT {
  private static final Duration PATIENCE = Duration.ofMinutes(3);

  @TempDir Path parent;

  @Test
  void theNextStartLoadsTheWholeDemo() throws Exception {
    Path directory = parent.resolve("data");
    DataOnDisk data = new DataOnDisk(directory);
    AppProcess first = loading(directory).said("Kept in");
    first.kill();
    String told = Files.readString(directory.resolve("demo-people.txt"));

    AppProcess second = loading(directory).said("Loading the demo operator");
    Instant latest = Instant.now().plus(PATIENCE);
    do {
      assertThat(Instant.now()).as("flights are loaded").isBefore(latest);
    } while (data.ask("SELECT 1 FROM flight LIMIT 1").isEmpty());
    second.kill();

    try (AppProcess app = loading(directory).ready()) {
      assertThat(Files.readString(directory.resolve("demo-people.txt"))).isEqualTo(told);
      assertThat(data.ask("SELECT name FROM operator ORDER BY created_at DESC, name DESC"))
          .anyMatch(name -> name.contains("half loaded, set aside on"))
          .filteredOn(name -> !name.contains("set aside"))
          .singleElement()
          .isNotNull();
      assertThat(Drive.signedIn(app.url(), "tarn", passwordOf("tarn", told)).text("/fleet"))
          .contains("QX-TBC", "1 held, 1 limited");
    }
  }

  private static AppProcess loading(Path directory) {
    return AppProcess.on(directory).with("TRESTLE_DEMO", "true").start();
  }

  private static String passwordOf(String name, String people) {
    Matcher line = Pattern.compile("(?m)^  " + name + " +(\\S+)").matcher(people);
    assertThat(line.find()).as("%s is told of in:%n%s", name, people).isTrue();
    return line.group(1);
  }
}
