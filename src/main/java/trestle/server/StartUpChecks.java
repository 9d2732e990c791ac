package trestle.server;

import io.quarkus.runtime.LaunchMode;
import io.quarkus.runtime.StartupEvent;
import jakarta.annotation.Priority;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import jakarta.interceptor.Interceptor;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import javax.sql.DataSource;

/**
 * Refuses to run on a database that would acknowledge what it may lose, or show one operator
 * another's rows. There is no setting to pass these checks by.
 */
@ApplicationScoped
public class StartUpChecks {
  private static final int OLDEST_VERSION = 150_000;
  private static final Set<String> WAITS_FOR_THE_DISK =
      Set.of("on", "local", "remote_write", "remote_apply");

  @Inject DataSource dataSource;

  /** After the migrations, before anybody is let in or anything is loaded. */
  void onStart(@Observes @Priority(Interceptor.Priority.PLATFORM_BEFORE) StartupEvent started) {
    try (Connection connection = dataSource.getConnection()) {
      // The database of the tests is thrown away with them, and may forget at a power cut.
      boolean durable = LaunchMode.current() != LaunchMode.TEST;
      refuseUnlessSound(DatabaseFacts.ask(connection), durable);
    } catch (SQLException e) {
      throw new StartRefused("The database can't be asked for its settings: " + e.getMessage());
    }
  }

  static void refuseUnlessSound(DatabaseFacts facts, boolean durable) {
    List<String> objections =
        Stream.concat(durable ? durability(facts).stream() : Stream.of(), walls(facts).stream())
            .toList();
    if (!objections.isEmpty()) {
      throw new StartRefused(
          "Trestle will not run on this database. " + String.join(" ", objections));
    }
  }

  private static List<String> durability(DatabaseFacts facts) {
    return Stream.of(
            version(facts),
            mustBe("fsync", facts.fsync(), Set.of("on")),
            mustBe("full_page_writes", facts.fullPageWrites(), Set.of("on")),
            mustBe("synchronous_commit", facts.synchronousCommit(), WAITS_FOR_THE_DISK))
        .flatMap(List::stream)
        .toList();
  }

  private static List<String> version(DatabaseFacts facts) {
    return facts.versionNumber() >= OLDEST_VERSION
        ? List.of()
        : List.of(
            "It is PostgreSQL %d; version 15 or newer is needed."
                .formatted(facts.versionNumber() / 10_000));
  }

  private static List<String> mustBe(String setting, String value, Set<String> allowed) {
    return allowed.contains(value)
        ? List.of()
        : List.of(
            "Its setting %s is %s, so that what was acknowledged could be lost at a power cut: set it to on."
                .formatted(setting, value));
  }

  private static List<String> walls(DatabaseFacts facts) {
    return Stream.of(
            objection(
                facts.powerfulRoles(),
                "The application's user "
                    + facts.user()
                    + " is, or may become, a superuser or a role with BYPASSRLS (%s): use one that is neither."),
            objection(
                facts.powerfulRoles().isEmpty() ? facts.ownedTables() : List.of(),
                "The application's user "
                    + facts.user()
                    + " owns tables, or may become their owner (%s): they must belong to the owner alone."),
            objection(
                facts.powerfulRoles().isEmpty() && facts.ownedTables().isEmpty()
                    ? facts.truncatableTables()
                    : List.of(),
                "The application's user "
                    + facts.user()
                    + " has the privilege TRUNCATE (%s): revoke it."),
            objection(
                facts.openTables(),
                "Row-level security is not forced on %s: ALTER TABLE … FORCE ROW LEVEL SECURITY."))
        .flatMap(List::stream)
        .toList();
  }

  private static List<String> objection(List<String> names, String sentence) {
    return names.isEmpty() ? List.of() : List.of(sentence.formatted(someOf(names)));
  }

  private static String someOf(List<String> names) {
    int shown = Math.min(names.size(), 3);
    String more = names.size() > shown ? " and " + (names.size() - shown) + " more" : "";
    return String.join(", ", names.subList(0, shown)) + more;
  }
}
