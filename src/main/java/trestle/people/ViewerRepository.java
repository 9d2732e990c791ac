package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import javax.sql.DataSource;
import trestle.web.Role;
import trestle.web.Viewer;

/** Who a session is, asked once a request in one statement, so that signing out works at once. */
@ApplicationScoped
class ViewerRepository {
  @Inject DataSource database;

  Optional<Viewer> viewerOf(UUID session, Instant now) {
    try (var connection = database.getConnection();
        var asked = connection.prepareStatement("select * from viewer_of(?, ?)")) {
      asked.setObject(1, session);
      asked.setObject(2, OffsetDateTime.ofInstant(now, ZoneOffset.UTC));
      try (ResultSet row = asked.executeQuery()) {
        return row.next() ? Optional.of(viewer(row)) : Optional.empty();
      }
    } catch (SQLException e) {
      throw new IllegalStateException("The database did not say who is asking", e);
    }
  }

  private static Viewer viewer(ResultSet row) throws SQLException {
    String zone = row.getString("time_zone");
    return new Viewer(
        row.getObject("person_id", UUID.class),
        row.getString("person_name"),
        row.getBoolean("administrator"),
        row.getObject("operator_id", UUID.class),
        row.getString("operator_name"),
        zone == null ? ZoneOffset.UTC : ZoneId.of(zone),
        !"local".equals(row.getString("flight_times_in")),
        roles((String[]) row.getArray("roles").getArray()));
  }

  private static Set<Role> roles(String[] words) {
    Set<Role> roles = EnumSet.noneOf(Role.class);
    for (String word : words) {
      roles.add(Role.parse(word));
    }
    return roles;
  }
}
