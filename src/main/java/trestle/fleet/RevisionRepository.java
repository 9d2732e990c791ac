package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.OptionalLong;
import java.util.UUID;
import javax.sql.DataSource;

/** Asks for one aircraft's revision without a transaction, within the walls of its operator. */
@ApplicationScoped
class RevisionRepository {
  @Inject DataSource database;

  OptionalLong revision(UUID operatorId, UUID aircraftId) {
    try (var connection = database.getConnection();
        var asked = connection.prepareStatement("select revision_of(?, ?)")) {
      asked.setObject(1, operatorId);
      asked.setObject(2, aircraftId);
      try (ResultSet row = asked.executeQuery()) {
        row.next();
        long revision = row.getLong(1);
        return row.wasNull() ? OptionalLong.empty() : OptionalLong.of(revision);
      }
    } catch (SQLException e) {
      throw new IllegalStateException("The database did not say what is current", e);
    }
  }
}
