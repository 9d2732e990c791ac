package trestle.server;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * Ends the session that the application works in, as an administrator of the database could, right
 * before a call that it makes. What then fails is no pretence.
 */
public final class BrokenCall {
  private static final AtomicInteger LEFT = new AtomicInteger();
  private static volatile boolean happened;

  private BrokenCall() {}

  /** The n-th statement from here on, counted from one. */
  public static void at(int number) {
    happened = false;
    LEFT.set(number);
  }

  public static void never() {
    LEFT.set(0);
  }

  public static boolean hasHappened() {
    return happened;
  }

  /** A statement is about to be sent. */
  static void next() {
    if (LEFT.get() > 0 && LEFT.decrementAndGet() == 0) {
      happened = true;
      try (Connection connection = TestDatabase.asSuperuser();
          var statement =
              connection.prepareStatement(
                  "select pg_terminate_backend(pid, 5000) from pg_stat_activity where usename = ?"
                      + " and state like 'idle in transaction%' and datname = current_database()")) {
        statement.setString(1, TestDatabase.APP);
        statement.executeQuery();
      } catch (SQLException e) {
        throw new IllegalStateException(e);
      }
    }
  }
}
