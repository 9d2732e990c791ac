package trestle.demo;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.sql.Connection;
import java.sql.SQLException;
import java.util.concurrent.Callable;
import javax.sql.DataSource;

@ApplicationScoped
class DemoRepository {
  private static final long LOADING = 727_402;

  @Inject EntityManager entities;
  @Inject DataSource dataSource;

  /** Runs work while no other process on this database runs it; waits for its turn. */
  <T> T alone(Callable<T> work) throws Exception {
    try (Connection connection = dataSource.getConnection()) {
      ask(connection, "select pg_advisory_lock(" + LOADING + ")");
      try {
        return work.call();
      } finally {
        ask(connection, "select pg_advisory_unlock(" + LOADING + ")");
      }
    }
  }

  /** Writes what is pending and keeps nothing in memory: a batch's rows would slow each other. */
  void forget() {
    entities.flush();
    entities.clear();
  }

  private static void ask(Connection connection, String question) throws SQLException {
    try (var statement = connection.createStatement()) {
      statement.execute(question);
    }
  }
}
