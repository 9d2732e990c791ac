package trestle.demo;

import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.interceptor.Interceptor;
import java.io.PrintStream;
import java.nio.file.Path;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.jboss.logging.Logger;
import trestle.server.Command;
import trestle.server.Installation;

/**
 * Loads the demo operator when an installation that wants it starts empty, and again on the command
 * {@code demo rebuild}. Filed rows are never removed: rebuilding sets the old one aside.
 */
@ApplicationScoped
public class Demo implements Command {
  private static final Logger LOG = Logger.getLogger(Demo.class);
  static final String PEOPLE_FILE = "demo-people.txt";

  @Inject Installation installation;
  @Inject DemoLoader loader;
  @Inject DemoRepository repository;
  @Inject InstantSource clock;

  /** After the migrations and the checks of the database, before anybody is let in. */
  void onStart(@Observes @Priority(Interceptor.Priority.APPLICATION) StartupEvent started) {
    if (!installation.wantsDemo() || !loader.nothingThere()) {
      return;
    }
    try {
      repository.alone(() -> loader.nothingThere() ? load(System.out) : null);
    } catch (Exception e) {
      // Without its demo the program still does its job, and the next start tries again.
      LOG.error("The demo operator could not be loaded; starting without it", e);
    }
  }

  @Override
  public String name() {
    return "demo rebuild";
  }

  @Override
  public int run(List<String> arguments, PrintStream out) {
    try {
      repository.alone(() -> load(out));
      return 0;
    } catch (Exception e) {
      throw new IllegalStateException("The demo operator could not be loaded", e);
    }
  }

  private DemoLoader.Loaded load(PrintStream out) throws Exception {
    Instant now = clock.instant();
    out.println("Loading the demo operator: two years of flights, ending today.");
    loader.setAside(LocalDate.ofInstant(now, ZoneOffset.UTC));
    Map<String, String> told =
        installation.kept(PEOPLE_FILE).map(DemoPeople::passwords).orElse(Map.of());
    return loader.load(now, told, people -> welcome(people, out));
  }

  private void welcome(List<CastLoad.Invited> people, PrintStream out) {
    if (people.stream().noneMatch(CastLoad.Invited::isNew)) {
      out.println("The demo's people keep their passwords (" + PEOPLE_FILE + ").");
      return;
    }
    String lines = DemoPeople.text(people);
    Path file = installation.keepPrivately(PEOPLE_FILE, lines);
    out.print(lines);
    out.println("Kept in " + file);
  }
}
