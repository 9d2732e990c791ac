package trestle.server;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;
import org.flywaydb.core.api.FlywayException;

/**
 * Built in or outside: with QUARKUS_DATASOURCE_JDBC_URL set, that PostgreSQL and no other. Either
 * way ends in the same settings for the application.
 *
 * @param settings what the application is started with
 * @param builtIn the server to stop at the end, or null
 */
record DatabaseChoice(Map<String, String> settings, BuiltInPostgres builtIn) {

  static final String DEFAULT_DIRECTORY = "trestle-data";
  static final String URL = "quarkus.datasource.jdbc.url";

  private static final String USER = "quarkus.datasource.username";
  private static final String PASSWORD = "quarkus.datasource.password";
  private static final String OWNER = "trestle.owner.username";
  private static final String OWNER_PASSWORD = "trestle.owner.password";
  private static final String SESSION_KEY = "trestle.session.key";
  private static final String CSRF_KEY = "trestle.csrf.key";
  private static final String LEDGER_KEY = "trestle.ledger.key";

  /** Each with its file in the data directory's secrets. */
  private static final Map<String, String> KEYS =
      Map.of(SESSION_KEY, "session-key", CSRF_KEY, "csrf-key", LEDGER_KEY, "ledger-key");

  static DatabaseChoice make(Config config) {
    return config.getOptionalValue(URL, String.class).isPresent()
        ? outside(config)
        : inside(config);
  }

  private static DatabaseChoice inside(Config config) {
    DataDirectory directory = DataDirectory.open(directory(config));
    BuiltInPostgres server = BuiltInPostgres.start(directory);
    String ownerPassword = directory.secret("owner-password");
    String appPassword = directory.secret("app-password");
    try {
      DatabaseUsers.prepare(
          server.port(), directory.secret("postgres-password"), ownerPassword, appPassword);
    } catch (StartRefused e) {
      server.stop();
      throw e;
    }
    Map<String, String> settings = new HashMap<>();
    settings.put("trestle.built-in", "true");
    settings.put("trestle.data-dir", directory.path().toString());
    settings.put(URL, DatabaseUsers.url(server.port(), DatabaseUsers.DATABASE));
    settings.put(USER, DatabaseUsers.APP);
    settings.put(PASSWORD, appPassword);
    settings.put(OWNER, DatabaseUsers.OWNER);
    settings.put(OWNER_PASSWORD, ownerPassword);
    KEYS.forEach((key, file) -> settings.put(key, given(config, key, directory.secret(file))));
    return new DatabaseChoice(settings, server);
  }

  /** Where the built-in database is, or is to be. */
  static Path directory(Config config) {
    return Path.of(
            config.getOptionalValue("trestle.data-dir", String.class).orElse(DEFAULT_DIRECTORY))
        .toAbsolutePath()
        .normalize();
  }

  private static String given(Config config, String key, String otherwise) {
    return config.getOptionalValue(key, String.class).orElse(otherwise);
  }

  private static DatabaseChoice outside(Config config) {
    checkOutsideSettings(config);
    checkBeforeMigrations(config);
    Map<String, String> settings = new HashMap<>();
    settings.put("trestle.built-in", "false");
    for (String key : List.of(SESSION_KEY, CSRF_KEY)) {
      if (config.getOptionalValue(key, String.class).isEmpty()) {
        warnOfPassingKey(key);
        settings.put(key, DataDirectory.newSecret());
      }
    }
    if (config.getOptionalValue(LEDGER_KEY, String.class).isEmpty()) {
      System.err.println(
          "Warning: TRESTLE_LEDGER_KEY is not set, so each operator gets a new key to sign its"
              + " ledger with at every start.");
      settings.put(LEDGER_KEY, DataDirectory.newSecret());
    }
    return new DatabaseChoice(settings, null);
  }

  /** The owner and the application of an outside database. */
  static Migrations.Users outsideUsers(Config config) {
    return new Migrations.Users(
        config.getValue(OWNER, String.class),
        config.getValue(OWNER_PASSWORD, String.class),
        config.getValue(USER, String.class));
  }

  static void checkOutsideSettings(Config config) {
    List<String> missing = new ArrayList<>();
    for (String setting : List.of(USER, PASSWORD, OWNER, OWNER_PASSWORD)) {
      if (config.getOptionalValue(setting, String.class).isEmpty()) {
        missing.add(asEnvironment(setting));
      }
    }
    if (!missing.isEmpty()) {
      throw new StartRefused(
          "QUARKUS_DATASOURCE_JDBC_URL names an outside database, which needs two users: set %s too (docs/operations.md, \"An outside database\")."
              .formatted(String.join(", ", missing)));
    }
  }

  /** Asked as the application's user, of whom everything is known by now. */
  boolean isMigratedBy(String mark, Config config) {
    try (Connection connection =
        DatabaseUsers.connect(value(URL, config), value(USER, config), value(PASSWORD, config))) {
      return Migrations.areDone(connection, mark);
    } catch (SQLException e) {
      return false;
    }
  }

  /**
   * Built in always, beside the database; outside where a directory for backups is set.
   *
   * @throws StartRefused when that fails
   */
  void keepBeforeUpgrade(Config config) {
    Optional<Path> directory =
        builtIn != null
            ? Optional.of(directory(config).resolve("backups"))
            : config.getOptionalValue(ScheduledBackups.DIRECTORY, String.class).map(Path::of);
    if (directory.isPresent()) {
      UpgradeBackup.make(
          value(URL, config),
          users(config),
          directory.get().toAbsolutePath(),
          new TheClock().instant(),
          System.out);
    }
  }

  /**
   * @param mark of the migrations
   * @throws StartRefused when one of them failed
   */
  void migrate(String mark, Config config) {
    try {
      Migrations.run(value(URL, config), users(config), mark);
    } catch (FlywayException e) {
      throw new StartRefused("The database could not be brought up to date: " + e.getMessage());
    }
  }

  Migrations.Users users(Config config) {
    return new Migrations.Users(
        value(OWNER, config), value(OWNER_PASSWORD, config), value(USER, config));
  }

  private String value(String key, Config config) {
    return settings.containsKey(key) ? settings.get(key) : config.getValue(key, String.class);
  }

  private static void warnOfPassingKey(String key) {
    System.err.printf(
        "Warning: %s is not set, so a key is made for this start only: people are signed out at the next, and a second process can't share their sessions.%n",
        asEnvironment(key));
  }

  /** A migration is not tried on a database that will be refused afterwards. */
  private static void checkBeforeMigrations(Config config) {
    String url = config.getValue(URL, String.class);
    DatabaseFacts facts;
    try (Connection connection =
        DatabaseUsers.connect(
            url, config.getValue(USER, String.class), config.getValue(PASSWORD, String.class))) {
      facts = DatabaseFacts.ask(connection);
    } catch (SQLException e) {
      throw new StartRefused(
          "The database %s can't be used as user %s: %s"
              .formatted(url, config.getValue(USER, String.class), e.getMessage()));
    }
    StartUpChecks.refuseUnlessSound(facts, true);
    if (config.getValue(OWNER, String.class).equals(facts.user())) {
      throw new StartRefused(
          "TRESTLE_OWNER_USERNAME and QUARKUS_DATASOURCE_USERNAME must be two users: the application must not own its tables.");
    }
  }

  private static String asEnvironment(String setting) {
    return setting.replace('.', '_').replace('-', '_').toUpperCase(java.util.Locale.ROOT);
  }
}
