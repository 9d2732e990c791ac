package trestle.records;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Runs docs/check-proof.sh, the checker that is no part of this program. */
public final class Shell {

  /** What it said and how it ended: 0 holds, 1 does not, 2 unreadable. */
  public record Answer(int code, String said) {}

  public static Answer check(String... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(List.of("sh", "docs/check-proof.sh"));
    command.addAll(List.of(arguments));
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectInput(Path.of("/dev/null").toFile())
            .start();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Answer(process.waitFor(), said);
  }

  private Shell() {}
}
