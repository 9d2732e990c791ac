package trestle.server;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/**
 * The PostgreSQL that comes with the program: made, started and stopped here, reached by this
 * machine only, and never told to skip writing to the disk.
 */
final class BuiltInPostgres {
  static final String SUPERUSER = "postgres";
  static final String MAJOR_VERSION = "17";

  private static final int PORTS_TO_TRY = 3;
  private static final int LINES_OF_LOG_TO_SHOW = 5;

  /** Written into postgresql.conf when the database is made; may be changed there. */
  private static final Map<String, String> SIZED_FOR_A_SMALL_SERVER =
      Map.of(
          "shared_buffers", "128MB",
          "work_mem", "8MB",
          "max_connections", "50",
          "max_wal_size", "256MB",
          "random_page_cost", "1.1",
          "jit", "off",
          "scram_iterations", DatabaseUsers.SCRAM_ITERATIONS,
          "timezone", "UTC",
          "log_timezone", "UTC");

  /** Given at every start and stronger than any file. */
  private static final List<String> ALWAYS =
      List.of(
          "listen_addresses=127.0.0.1",
          "unix_socket_directories=",
          "fsync=on",
          "full_page_writes=on",
          "synchronous_commit=on");

  private final DataDirectory directory;
  private final PostgresUser user;
  private final Path programs;
  private int port;
  private boolean ended;

  private BuiltInPostgres(DataDirectory directory, PostgresUser user, Path programs) {
    this.directory = directory;
    this.user = user;
    this.programs = programs;
  }

  /** Starts the server on the directory, making the database first if there is none. */
  static BuiltInPostgres start(DataDirectory directory) {
    return start(directory, directory.path(), PostgresUser.here());
  }

  /**
   * @param programs where PostgreSQL's own programs are unpacked
   * @param user as whom they run
   */
  static BuiltInPostgres start(DataDirectory directory, Path programs, PostgresUser user) {
    try {
      user.letThrough(directory.path());
      BuiltInPostgres server =
          new BuiltInPostgres(directory, user, PostgresBinaries.unpacked(programs));
      server.makeDatabase();
      server.checkVersion();
      new OrphanedServer(directory.postgres()).clearAway(server::stop);
      server.startOnSomePort();
      return server;
    } catch (IOException e) {
      throw new StartRefused(
          "The built-in PostgreSQL can't be set up in %s: %s. Is the disk full?"
              .formatted(directory.path(), e));
    }
  }

  int port() {
    return port;
  }

  /** Ends sessions, writes a checkpoint and waits; does nothing when it is not running. */
  void stop() {
    if (Files.exists(data().resolve("postmaster.pid"))) {
      run("pg_ctl", List.of("stop", "-D", data().toString(), "-m", "fast", "-w", "-t", "60"));
    }
  }

  /** For good: from here on it is not started again. */
  synchronized void end() {
    ended = true;
    stop();
  }

  boolean isRunning() throws IOException {
    return new OrphanedServer(data()).isRunning();
  }

  /**
   * On the port it had, when something else than this program has ended it.
   *
   * @return whether that was so
   */
  synchronized boolean startAgainIfLost() throws IOException {
    if (ended || isRunning()) {
      return false;
    }
    new OrphanedServer(data()).clearAway(this::stop);
    if (run("pg_ctl", startArguments()) != 0) {
      throw failure("did not start again");
    }
    return true;
  }

  private Path data() {
    return directory.postgres();
  }

  /** In a draft directory that is renamed when whole, so that a start cut short leaves no half. */
  private void makeDatabase() throws IOException {
    if (Files.exists(data())) {
      return;
    }
    Path draft = directory.path().resolve("postgres.new");
    if (Files.exists(draft)) {
      PostgresBinaries.remove(draft);
    }
    PrivateFiles.directory(draft);
    user.give(draft);
    Path password = directory.path().resolve("password.new");
    PrivateFiles.write(password, directory.secret("postgres-password"));
    user.give(password);
    try {
      if (run("initdb", initArguments(draft, password)) != 0) {
        throw failure("could not be set up");
      }
    } finally {
      Files.delete(password);
    }
    Files.move(draft, data(), StandardCopyOption.ATOMIC_MOVE);
  }

  private static List<String> initArguments(Path draft, Path password) {
    List<String> arguments = new ArrayList<>();
    arguments.addAll(List.of("-D", draft.toString(), "--username", SUPERUSER));
    arguments.addAll(List.of("--auth", "scram-sha-256", "--pwfile", password.toString()));
    // The order of text must not change with the machine's libraries, or indexes break silently.
    arguments.addAll(List.of("--encoding", "UTF8", "--locale", "C"));
    arguments.addAll(List.of("--locale-provider", "builtin", "--builtin-locale", "C.UTF-8"));
    arguments.add("--data-checksums");
    SIZED_FOR_A_SMALL_SERVER.forEach(
        (key, value) -> arguments.addAll(List.of("-c", key + "=" + value)));
    return arguments;
  }

  private void checkVersion() throws IOException {
    Path file = data().resolve("PG_VERSION");
    String version = Files.exists(file) ? Files.readString(file).strip() : "unknown";
    if (!version.equals(MAJOR_VERSION)) {
      throw new StartRefused(
          "The database in %s was written by PostgreSQL %s, and this Trestle brings PostgreSQL %s. Start the Trestle that wrote it, take a backup there, and restore it into an empty data directory."
              .formatted(data(), version, MAJOR_VERSION));
    }
  }

  /** The port is free when asked for, but somebody may take it before PostgreSQL does. */
  private void startOnSomePort() throws IOException {
    for (int i = 0; i < PORTS_TO_TRY; i++) {
      port = freePort();
      if (run("pg_ctl", startArguments()) == 0) {
        return;
      }
      stop();
    }
    throw failure("did not start");
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      return socket.getLocalPort();
    }
  }

  private List<String> startArguments() {
    StringBuilder options = new StringBuilder("-p " + port);
    ALWAYS.forEach(setting -> options.append(" -c ").append(setting));
    // After a power cut PostgreSQL first replays its log, which may take minutes.
    return List.of("start", "-D", data().toString(), "-w", "-t", "600", "-o", options.toString());
  }

  private int run(String program, List<String> arguments) {
    try {
      ProcessBuilder builder =
          new ProcessBuilder(
              user.command(programs.resolve("bin").resolve(program).toString(), arguments));
      builder.environment().keySet().removeIf(name -> name.startsWith("PG"));
      builder.environment().put("LC_ALL", "C");
      builder.directory(programs.toFile());
      builder.redirectErrorStream(true);
      builder.redirectOutput(ProcessBuilder.Redirect.appendTo(directory.postgresLog().toFile()));
      Process process = builder.start();
      process.getOutputStream().close();
      return process.waitFor();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private StartRefused failure(String what) throws IOException {
    Path log = directory.postgresLog();
    List<String> lines = Files.readString(log, StandardCharsets.UTF_8).lines().toList();
    String end =
        String.join(
            System.lineSeparator(),
            lines.subList(Math.max(0, lines.size() - LINES_OF_LOG_TO_SHOW), lines.size()));
    return new StartRefused(
        "The built-in PostgreSQL %s. The end of its log %s:%n%s".formatted(what, log, end));
  }
}
