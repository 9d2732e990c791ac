package trestle.server;

import io.quarkus.runtime.Quarkus;
import io.quarkus.runtime.QuarkusApplication;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.util.List;
import org.eclipse.microprofile.config.Config;

/** On the started application: serves until told to stop, or runs one command of a room's. */
public class CommandRunner implements QuarkusApplication {
  @Inject @Any Instance<Command> commands;
  @Inject Installation installation;
  @Inject ScheduledBackups backups;
  @Inject Config config;

  @Override
  public int run(String... arguments) {
    CommandLine line = CommandLine.parse(List.of(arguments));
    if (line.rehearses()) {
      return Rehearsal.on(address(), System.out);
    }
    return line.serves() ? serve() : runCommand(line);
  }

  private int serve() {
    backups.begin();
    System.out.printf(
        "Trestle is ready: %s/ (%s). Ctrl-C stops it.%n",
        address(),
        installation.builtIn()
            ? "data in " + installation.dataDirectory()
            : "database " + config.getValue(DatabaseChoice.URL, String.class));
    Footprint.settle();
    Quarkus.waitForExit();
    return 0;
  }

  private String address() {
    return "http://%s:%s"
        .formatted(
            config.getValue("quarkus.http.host", String.class),
            config.getValue("quarkus.http.port", String.class));
  }

  private int runCommand(CommandLine line) {
    return commands.stream()
        .filter(command -> command.name().equals(line.command()))
        .findFirst()
        .map(command -> command.run(line.arguments(), System.out))
        .orElseGet(() -> missing(line));
  }

  private static int missing(CommandLine line) {
    System.err.printf("This build of Trestle has no command \"%s\".%n", line.command());
    return StartRefused.USAGE;
  }
}
