package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.SQLException;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;

/** What the owner creates is the application's to read and write, and no more. */
@QuarkusTest
class TestDatabaseTest {

  @Inject DataSource dataSource;

  @Test
  void theApplicationConnectsAsItsOwnUser() throws SQLException {
    try (Connection connection = dataSource.getConnection()) {
      assertThat(connection.getMetaData().getUserName()).isEqualTo(TestDatabase.APP);
    }
  }

  @Test
  void whatTheOwnerCreatesTheApplicationMayWriteButNotTruncate() throws SQLException {
    execute(TestDatabase.asOwner(), "CREATE TABLE IF NOT EXISTS made_by_test (n int)");
    try {
      execute(TestDatabase.asApp(), "INSERT INTO made_by_test VALUES (1)");
      assertThatThrownBy(() -> execute(TestDatabase.asApp(), "TRUNCATE made_by_test"))
          .hasMessageContaining("permission denied");
      assertThatThrownBy(() -> execute(TestDatabase.asApp(), "CREATE TABLE mine (n int)"))
          .hasMessageContaining("permission denied");
    } finally {
      execute(TestDatabase.asOwner(), "DROP TABLE made_by_test");
    }
  }

  private static void execute(Connection connection, String sql) throws SQLException {
    try (connection;
        var statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }
}
