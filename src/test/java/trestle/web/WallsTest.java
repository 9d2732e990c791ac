package trestle.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import io.quarkus.test.junit.QuarkusTestProfile;
import io.quarkus.test.junit.TestProfile;
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import javax.sql.DataSource;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.server.TestDatabase;

/** The walls hold on a pool of one connection, which every transaction of every operator shares. */
@QuarkusTest
@TestProfile(WallsTest.OneConnection.class)
class WallsTest {
  public static class OneConnection implements QuarkusTestProfile {
    @Override
    public Map<String, String> getConfigOverrides() {
      return Map.of(
          "quarkus.datasource.jdbc.min-size", "1",
          "quarkus.datasource.jdbc.max-size", "1");
    }
  }

  @Inject Operators operators;
  @Inject Members members;
  @Inject Walls walls;
  @Inject DataSource pool;

  Company ours;
  Company theirs;

  @BeforeEach
  void found() {
    ours = Company.founded("ours-" + UUID.randomUUID(), operators, members);
    theirs = Company.founded("theirs-" + UUID.randomUUID(), operators, members);
  }

  @Test
  void anotherOperatorsMemberIsNobodyHere() {
    UUID foreigner = theirs.people().get(Role.PILOT);
    assertThat(members.all(ours.viewer(Role.OWNER)))
        .hasSize(5)
        .noneMatch(member -> member.personId().equals(foreigner));
    assertThatThrownBy(() -> members.one(ours.viewer(Role.OWNER), foreigner))
        .isInstanceOf(NotHere.class);
  }

  @Test
  void noTableShowsAnotherOperatorsRows() throws SQLException {
    try (Connection app = TestDatabase.asApp()) {
      app.setAutoCommit(false);
      for (String table : tables()) {
        assertThat(seen(app, table, theirs.operatorId(), ours.operatorId())).as(table).isZero();
        assertThat(seen(app, table, theirs.operatorId(), null)).as(table).isZero();
      }
      assertThat(seen(app, "membership", ours.operatorId(), ours.operatorId())).isEqualTo(5);
    }
  }

  @Test
  void noTableTakesARowForAnotherOperator() throws SQLException {
    try (Connection owner = TestDatabase.asSuperuser();
        var rows =
            owner
                .createStatement()
                .executeQuery(
                    "select tablename, with_check from pg_policies where policyname ="
                        + " 'own_operator' and tablename <> 'operator'")) {
      List<String> walled = new ArrayList<>();
      while (rows.next()) {
        walled.add(rows.getString(1));
        assertThat(rows.getString(2)).isEqualTo("(operator_id = current_operator())");
      }
      assertThat(walled).containsAll(tables());
    }
  }

  @Test
  void anExceptionInMidTransactionLeavesNothingBehindOnTheConnection() throws SQLException {
    Viewer owner = ours.viewer(Role.OWNER);
    assertThatThrownBy(
            () ->
                walls.filing(
                    owner,
                    () -> {
                      members.takeIn(owner, "Half", "half@" + ours.name(), Set.of(Role.PILOT));
                      throw new IllegalStateException("in the middle");
                    }))
        .isInstanceOf(IllegalStateException.class);
    assertThat(members.all(owner)).hasSize(5);
    try (Connection sameOne = pool.getConnection()) {
      assertThat(asked(sameOne, "select count(*) from membership")).isZero();
      assertThat(asked(sameOne, "select count(*) from person where name = 'Half'")).isZero();
    }
    assertThat(members.all(theirs.viewer(Role.OWNER))).hasSize(5);
  }

  @Test
  void aReadingTransactionCannotWrite() {
    Viewer owner = ours.viewer(Role.OWNER);
    assertThatThrownBy(
            () ->
                walls.reading(
                    owner,
                    () -> members.takeIn(owner, "No", "no@" + ours.name(), Set.of(Role.PILOT))))
        .isInstanceOf(IllegalStateException.class);
    assertThat(members.all(owner)).hasSize(5);
  }

  @Test
  void filedRowsRefuseChangeAlsoToTheirOwnOperator() throws SQLException {
    try (Connection app = TestDatabase.asApp()) {
      app.setAutoCommit(false);
      for (String act : List.of("update membership set roles = '{}'", "delete from membership")) {
        speak(app, ours.operatorId());
        assertThatThrownBy(() -> app.createStatement().execute(act))
            .hasMessageContaining("Filed records are never changed or removed");
        app.rollback();
      }
      assertThatThrownBy(() -> app.createStatement().execute("truncate membership"))
          .hasMessageContaining("permission denied");
    }
  }

  private static List<String> tables() throws SQLException {
    try (Connection owner = TestDatabase.asSuperuser();
        ResultSet rows =
            owner
                .createStatement()
                .executeQuery(
                    "select c.relname from pg_class c join pg_attribute a on a.attrelid = c.oid"
                        + " where c.relkind = 'r' and a.attname = 'operator_id' and c.relnamespace"
                        + " = 'public'::regnamespace and c.relname <> 'session'")) {
      List<String> tables = new ArrayList<>();
      while (rows.next()) {
        tables.add(rows.getString(1));
      }
      return tables;
    }
  }

  private static long seen(Connection app, String table, UUID whose, UUID asking)
      throws SQLException {
    speak(app, asking);
    try (PreparedStatement count =
        app.prepareStatement("select count(*) from " + table + " where operator_id = ?")) {
      count.setObject(1, whose);
      try (ResultSet row = count.executeQuery()) {
        row.next();
        return row.getLong(1);
      }
    } finally {
      app.rollback();
    }
  }

  private static void speak(Connection app, UUID operator) throws SQLException {
    try (PreparedStatement speak =
        app.prepareStatement("select set_config('trestle.operator', ?, true)")) {
      speak.setString(1, operator == null ? "" : operator.toString());
      speak.execute();
    }
  }

  private static long asked(Connection connection, String query) throws SQLException {
    try (ResultSet row = connection.createStatement().executeQuery(query)) {
      row.next();
      return row.getLong(1);
    }
  }
}
