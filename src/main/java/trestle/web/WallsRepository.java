package trestle.web;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.UUID;
import org.hibernate.FlushMode;
import org.hibernate.Session;

@ApplicationScoped
class WallsRepository {
  private static final String SPEAK =
      "select set_config('trestle.operator', ?, true), set_config('trestle.person', ?, true),"
          + " set_config('transaction_read_only', ?, true)";

  @Inject Session session;

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
