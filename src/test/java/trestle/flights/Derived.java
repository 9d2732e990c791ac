package trestle.flights;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.server.TestDatabase;

/** The derived rows of an aircraft as they stand in the database, told by take-off. */
final class Derived {
  private Derived() {}

  static List<String> steps(UUID aircraft) throws SQLException {
    return asked(
        "select f.take_off_at, s.day, s.landed_at, s.hours, s.landings from usage_step s"
            + " join flight f on f.entry_id = s.entry_id"
            + " and not exists (select 1 from flight r where r.corrects = f.id)"
            + " where s.aircraft_id = '"
            + aircraft
            + "' order by f.take_off_at");
  }

  static List<String> breaks(UUID aircraft) throws SQLException {
    return asked(
        "select f.take_off_at, b.kind, e.take_off_at, b.amount from flight_break b"
            + " join flight f on f.id = b.flight_id"
            + " left join flight e on e.id = b.earlier_flight_id where b.aircraft_id = '"
            + aircraft
            + "' order by f.take_off_at, b.kind");
  }

  static List<String> asked(String query) throws SQLException {
    List<String> rows = new ArrayList<>();
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement()) {
      statement.execute("set time zone 'UTC'");
      ResultSet row = statement.executeQuery(query);
      while (row.next()) {
        StringBuilder line = new StringBuilder();
        for (int i = 1; i <= row.getMetaData().getColumnCount(); i++) {
          line.append(i == 1 ? "" : " ").append(row.getString(i));
        }
        rows.add(line.toString());
      }
    }
    return rows;
  }
}
