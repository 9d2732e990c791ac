package trestle.server;

import io.quarkus.runtime.Application;
import io.quarkus.runtime.Quarkus;
import io.quarkus.runtime.QuarkusBindException;
import io.quarkus.runtime.annotations.QuarkusMain;
import io.quarkus.runtime.util.ExceptionUtil;
import io.smallrye.config.DotEnvConfigSourceProvider;
import io.smallrye.config.SmallRyeConfigBuilder;
import java.util.List;
import java.util.Optional;
import org.eclipse.microprofile.config.Config;

/**
 * Where the program begins: reads the command, sees to a database, then starts the application. A
 * sentence and an exit code, never a stack trace, for what somebody can put right.
 */
@QuarkusMain
public final class Main {

  public static void main(String... arguments) {
    try {
      run(CommandLine.parse(List.of(arguments)), arguments);
    } catch (StartRefused refused) {
      System.err.println(refused.getMessage());
      System.exit(refused.exitCode());
    }
  }

  private static void run(CommandLine line, String... arguments) {
    switch (line.command()) {
      case CommandLine.HELP -> System.out.println(CommandLine.help());
      case CommandLine.VERSION -> System.out.println("Trestle " + Version.current());
      case BackupCommands.BACKUP, BackupCommands.RESTORE ->
          System.exit(new BackupCommands(settings(), System.out).run(line));
      default -> startApplication(line, arguments);
    }
  }

  private static void startApplication(CommandLine line, String... arguments) {
    prepareApplication();
    Config config = settings();
    DatabaseChoice database = DatabaseChoice.make(config);
    database.settings().forEach(System::setProperty);
    if (database.builtIn() != null) {
      stopAfterApplication(database.builtIn());
      PostgresWatch.over(database.builtIn());
    }
    migrate(database, config);
    if (!line.serves()) {
      System.setProperty("quarkus.http.host-enabled", "false");
    }
    Quarkus.run(CommandRunner.class, Main::ended, arguments);
  }

  /** What a database is chosen by; Quarkus reads everything, and again, when it starts. */
  private static Config settings() {
    ClassLoader loader = Thread.currentThread().getContextClassLoader();
    return new SmallRyeConfigBuilder()
        .forClassLoader(loader)
        .addDefaultInterceptors()
        .addSystemSources()
        .withSources(new DotEnvConfigSourceProvider().getConfigSources(loader))
        .build();
  }

  /** A database that this very build has migrated is not looked through again. */
  private static void migrate(DatabaseChoice database, Config config) {
    Optional<String> mark = Migrations.mark();
    if (mark.isEmpty() || !database.isMigratedBy(mark.get(), config)) {
      database.keepBeforeUpgrade(config);
      database.migrate(mark.orElse(Migrations.UNMARKED), config);
    }
  }

  /**
   * The half of the application's start that needs no database, on a thread of its own while the
   * database is seen to. {@link Quarkus#run} waits for it.
   */
  private static void prepareApplication() {
    Thread thread =
        new Thread(
            () -> {
              try {
                ClassLoader loader = Thread.currentThread().getContextClassLoader();
                Class.forName(Application.APP_CLASS_NAME, true, loader);
              } catch (ClassNotFoundException e) {
                throw new IllegalStateException("The program was packaged without itself", e);
              }
            },
            "prepare-application");
    thread.setDaemon(true);
    thread.start();
  }

  /** Hooks run side by side, so that this one waits for the application's own to be done. */
  private static void stopAfterApplication(BuiltInPostgres server) {
    Runtime.getRuntime()
        .addShutdownHook(
            new Thread(
                () -> {
                  Optional.ofNullable(Application.currentApplication())
                      .ifPresent(Application::awaitShutdown);
                  server.end();
                },
                "stop-postgres"));
  }

  private static void ended(int exitCode, Throwable cause) {
    if (cause != null) {
      explain(ExceptionUtil.getRootCause(cause), cause);
    }
    System.exit(exitCode);
  }

  private static void explain(Throwable root, Throwable whole) {
    if (root instanceof StartRefused refused) {
      System.err.println(refused.getMessage());
    } else if (root instanceof QuarkusBindException taken) {
      System.err.printf(
          "Port %d on %s can't be used; another program may have it. Set QUARKUS_HTTP_PORT to"
              + " another.%n",
          taken.getPort(), taken.getHost());
    } else {
      System.err.println("Trestle did not start: " + root);
      whole.printStackTrace();
    }
  }

  private Main() {}
}
