package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The packaged program on a PostgreSQL of somebody else's: used when sound, refused when not. */
class OutsideDatabaseIT {
  private static OutsidePostgres outside;

  @TempDir Path parent;

  @BeforeAll
  static void startAndMigrate() {
    outside = OutsidePostgres.durable();
    try (AppProcess first = new AppProcess.Builder().with(outside.settings()).start();
        AppProcess second = new AppProcess.Builder().with(outside.settings()).start()) {
      // Both at once on an empty database: one makes the tables, the other waits for it.
      first.ready();
      second.ready();
    }
  }

  @AfterAll
  static void stop() {
    outside.close();
  }

  @Test
  void theBuiltInServerNeverStarts() {
    Path directory = parent.resolve("data");
    try (AppProcess app = AppProcess.on(directory).with(outside.settings()).start()) {
      assertThat(app.statusOf("/q/health/ready")).isEqualTo(200);
      assertThat(app.output()).contains("(database " + outside.url() + ")");
      assertThat(app.handle().descendants()).isEmpty();
      assertThat(directory).doesNotExist();
    }
  }

  @Test
  void withoutKeysOfItsOwnItWarns() {
    Map<String, String> settings = new HashMap<>(outside.settings());
    settings.remove("TRESTLE_SESSION_KEY");
    try (AppProcess app = new AppProcess.Builder().with(settings).start()) {
      assertThat(app.statusOf("/q/health/ready")).isEqualTo(200);
      assertThat(app.output())
          .contains("Warning: TRESTLE_SESSION_KEY is not set")
          .doesNotContain("TRESTLE_CSRF_KEY is not set");
    }
  }

  @Test
  void aServerThatWouldLieIsRefused() {
    try (OutsidePostgres forgetful = OutsidePostgres.forgetful()) {
      assertThat(refusal(forgetful.settings()))
          .contains("Its setting fsync is off")
          .contains("Its setting full_page_writes is off")
          .contains("Its setting synchronous_commit is off");
    }
  }

  /** What somebody did to the database, what the program says, and how it was undone. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          ALTER ROLE trestle_app SUPERUSER | superuser or a role with BYPASSRLS (trestle_app | ALTER ROLE trestle_app NOSUPERUSER
          ALTER ROLE trestle_app BYPASSRLS | superuser or a role with BYPASSRLS (trestle_app) | ALTER ROLE trestle_app NOBYPASSRLS
          ALTER ROLE trestle_app SET synchronous_commit = off | setting synchronous_commit is off | ALTER ROLE trestle_app RESET ALL
          CREATE TABLE taken (n int); ALTER TABLE taken OWNER TO trestle_app | owns tables, or may become their owner (taken) | DROP TABLE taken
          GRANT trestle_owner TO trestle_app | owns tables, or may become their owner ( | REVOKE trestle_owner FROM trestle_app
          GRANT TRUNCATE ON person TO trestle_app | has the privilege TRUNCATE (person) | REVOKE TRUNCATE ON person FROM trestle_app
          ALTER TABLE membership NO FORCE ROW LEVEL SECURITY | Row-level security is not forced on membership | ALTER TABLE membership FORCE ROW LEVEL SECURITY
          ALTER TABLE membership DISABLE ROW LEVEL SECURITY | Row-level security is not forced on membership | ALTER TABLE membership ENABLE ROW LEVEL SECURITY
          """)
  void whatOpensTheWallsIsRefused(String done, String said, String undone) {
    outside.execute(done);
    try {
      assertThat(refusal(outside.settings()))
          .startsWith("Trestle will not run on this database. ")
          .contains(said);
    } finally {
      outside.execute(undone);
    }
  }

  @Test
  void theOwnerIsAskedForByName() {
    Map<String, String> settings = new HashMap<>(outside.settings());
    settings.keySet().removeIf(name -> name.startsWith("TRESTLE_OWNER"));
    assertThat(refusal(settings))
        .contains("set TRESTLE_OWNER_USERNAME, TRESTLE_OWNER_PASSWORD too")
        .contains("docs/operations.md");
  }

  @Test
  void aDatabaseOutOfReachIsNamed() {
    Map<String, String> settings = new HashMap<>(outside.settings());
    settings.put("QUARKUS_DATASOURCE_JDBC_URL", "jdbc:postgresql://127.0.0.1:1/trestle");
    assertThat(refusal(settings))
        .startsWith("The database jdbc:postgresql://127.0.0.1:1/trestle can't be used as user")
        .contains("refused");
  }

  private static String refusal(Map<String, String> settings) {
    try (AppProcess app = new AppProcess.Builder().with(settings).start()) {
      assertThat(app.exitCode()).isEqualTo(1);
      assertThat(app.output()).as("a sentence, not a stack trace").doesNotContain("\tat ");
      return app.output();
    }
  }
}
