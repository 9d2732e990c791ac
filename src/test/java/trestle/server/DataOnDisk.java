package trestle.server;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import trestle.server.backup.BackupWriter;

/** A data directory seen from outside: its running PostgreSQL, asked with the files' passwords. */
public record DataOnDisk(Path directory) {

  private static final int PORT_LINE = 3;
  private static final int ADDRESS_LINE = 5;

  Path processFile() {
    return directory.resolve("postgres").resolve("postmaster.pid");
  }

  public long postmaster() {
    return Long.parseLong(processLine(0));
  }

  String listensOn() {
    return processLine(ADDRESS_LINE);
  }

  public Connection asSuperuser() throws SQLException {
    return connect("postgres", secret("postgres-password"));
  }

  Connection connect(String user, String password) throws SQLException {
    int port = Integer.parseInt(processLine(PORT_LINE));
    return DatabaseUsers.connect(DatabaseUsers.url(port, "trestle"), user, password);
  }

  String secret(String name) {
    return lines(directory.resolve("secrets").resolve(name)).get(0);
  }

  void execute(String sql) throws SQLException {
    try (Connection connection = asSuperuser();
        Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  public List<String> ask(String sql) throws SQLException {
    List<String> answers = new ArrayList<>();
    try (Connection connection = asSuperuser();
        var rows = connection.createStatement().executeQuery(sql)) {
      while (rows.next()) {
        answers.add(rows.getString(1));
      }
    }
    return answers;
  }

  /** What a backup finds wrong with the ledgers while it recomputes them. */
  public List<String> faultsOfTheLedger(Path file) throws IOException, SQLException {
    try (Connection owner = connect(DatabaseUsers.OWNER, secret("owner-password"))) {
      return new BackupWriter(owner, "of the tests", new TheClock().instant())
          .write(file, Optional.empty())
          .faults();
    }
  }

  private String processLine(int number) {
    return lines(processFile()).get(number).strip();
  }

  private static List<String> lines(Path file) {
    try {
      return Files.readAllLines(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
