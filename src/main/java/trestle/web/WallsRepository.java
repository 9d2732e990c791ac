package trestle.web;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.sql.SQLException;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.hibernate.FlushMode;
import org.hibernate.Session;

@ApplicationScoped
class WallsRepository {
  private static final String SPEAK =
      "select set_config('trestle.operator', ?, true), set_config('trestle.person', ?, true),"
          + " set_config('transaction_read_only', ?, true)";

  private static final int DEEPEST = 20;

  @Inject Session session;

  /** What is the matter with the database itself, if that is why something failed. */
  static Optional<Outage> outageIn(Throwable failure) {
    return outageIn(failure, 0);
  }

  /** A commit that fails keeps its reasons aside, as suppressed ones. */
  private static Optional<Outage> outageIn(Throwable failure, int depth) {
    if (failure == null || depth > DEEPEST) {
      return Optional.empty();
    }
    if (failure instanceof SQLException sql) {
      Optional<Outage> outage = outage(sql.getSQLState(), String.valueOf(sql.getMessage()));
      if (outage.isPresent()) {
        return outage;
      }
    }
    return Stream.concat(Stream.of(failure.getSuppressed()), Stream.ofNullable(failure.getCause()))
        .flatMap(reason -> outageIn(reason, depth + 1).stream())
        .findFirst();
  }

  /** PostgreSQL's error codes, appendix A; the pool's own failures have none. */
  private static Optional<Outage> outage(String state, String message) {
    if (message.contains("No space left on device") || "53100".equals(state)) {
      return Optional.of(Outage.FULL);
    }
    boolean gone =
        state == null
            ? message.contains("cquisition timeout")
            : state.startsWith("08") || state.startsWith("57P") || state.equals("53300");
    return gone ? Optional.of(Outage.GONE) : Optional.empty();
  }

  void speakFor(UUID operatorId, UUID personId, boolean readOnly) {
    session.doWork(
        connection -> {
          try (var statement = connection.prepareStatement(SPEAK)) {
            statement.setString(1, operatorId == null ? "" : operatorId.toString());
            statement.setString(2, personId == null ? "" : personId.toString());
            statement.setString(3, readOnly ? "on" : "off");
            statement.execute();
          }
        });
    if (readOnly) {
      session.setDefaultReadOnly(true);
      session.setHibernateFlushMode(FlushMode.MANUAL);
    }
  }
}
