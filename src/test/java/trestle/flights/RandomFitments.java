package trestle.flights;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import trestle.web.Viewer;

/**
 * Random fits, removals and swaps of many components, in positions of aircraft and in one another,
 * some filed and voided again; written as rows with their lines in the ledger, so that thousands
 * are quick. The database's own rules on overlaps and circles hold all the same.
 */
final class RandomFitments {

  /** A place, and what is in it. */
  private record Spot(UUID aircraft, UUID assembly, String name) {}

  private record Row(String table, Object[] values, UUID id, Instant at) {}

  private final Random random;
  private final Viewer viewer;
  private final List<Spot> spots = new ArrayList<>();
  private final Map<Spot, UUID> inside = new HashMap<>();
  private final Map<UUID, Spot> where = new HashMap<>();
  private final Map<UUID, UUID> fitments = new HashMap<>();
  private final List<UUID> parts = new ArrayList<>();
  private final List<Row> rows = new ArrayList<>();

  RandomFitments(long seed, Viewer viewer) {
    this.random = new Random(seed);
    this.viewer = viewer;
  }

  /**
   * @param assemblies how many components have places for others in them
   * @return the components
   */
  List<UUID> make(
      List<UUID> aircraft,
      int components,
      int assemblies,
      int moves,
      Instant began,
      Duration over) {
    aircraft.forEach(
        each -> {
          for (int i = 0; i < 20; i++) {
            spots.add(new Spot(each, null, "position-" + i));
          }
        });
    for (int i = 0; i < components; i++) {
      UUID part = UUID.randomUUID();
      parts.add(part);
      register(part, i, began);
      if (i < assemblies) {
        spots.add(new Spot(null, part, "left"));
        spots.add(new Spot(null, part, "right"));
      }
    }
    Instant at = began;
    for (int i = 0; i < moves; i++) {
      at = at.plus(over.dividedBy(moves));
      move(at);
    }
    return parts;
  }

  private void register(UUID part, int number, Instant at) {
    row("component", at, part, "other", "PN", "S-" + number, "Part", "");
    row("component_opening", at, part, "hours", 3600L * number, 0L);
  }

  private void move(Instant at) {
    UUID part = parts.get(random.nextInt(parts.size()));
    Spot from = where.get(part);
    if (from != null && random.nextInt(3) == 0) {
      remove(part, at);
      return;
    }
    Spot to = spots.get(random.nextInt(spots.size()));
    UUID there = inside.get(to);
    if (to == from
        || isAround(part, to)
        || there != null && from != null && isAround(there, from)) {
      return;
    }
    if (from != null) {
      remove(part, at);
    }
    if (there != null) {
      remove(there, at);
    }
    fit(part, to, at);
    if (there != null && from != null) {
      fit(there, from, at);
    } else if (random.nextInt(20) == 0) {
      mistake(part, at);
    }
  }

  /** Whether a part would come to sit in itself. */
  private boolean isAround(UUID part, Spot spot) {
    for (Spot at = spot; at != null && at.assembly() != null; at = where.get(at.assembly())) {
      if (at.assembly().equals(part)) {
        return true;
      }
    }
    return false;
  }

  private void fit(UUID part, Spot spot, Instant at) {
    fitments.put(part, row("fitment", at, part, spot, null, null));
    inside.put(spot, part);
    where.put(part, spot);
  }

  private void remove(UUID part, Instant at) {
    row("removal", at, fitments.remove(part));
    inside.remove(where.remove(part));
  }

  /** A second fitment, elsewhere, that never was. */
  private void mistake(UUID part, Instant at) {
    Spot spot = spots.get(random.nextInt(spots.size()));
    if (!isAround(part, spot)) {
      UUID mistaken = row("fitment", at, part, spot, null, null);
      row("fitment", at, part, spot, mistaken, "Never was");
    }
  }

  private UUID row(String table, Instant at, Object... values) {
    Row row = new Row(table, values, UUID.randomUUID(), at);
    rows.add(row);
    return row.id();
  }

  void write(Connection connection) throws SQLException {
    connection.setAutoCommit(false);
    long seq = size(connection);
    try (PreparedStatement ledger =
            connection.prepareStatement(
                "insert into ledger_entry (operator_id, seq, recorded_at, recorded_by, kind,"
                    + " kind_version, record_id, json, leaf)"
                    + " values (?, ?, ?, ?, ?, 1, ?, '{}', sha256(''))");
        PreparedStatement component = statement(connection, "component", 6);
        PreparedStatement opening = statement(connection, "component_opening", 4);
        PreparedStatement fitment = statement(connection, "fitment", 8);
        PreparedStatement removal = statement(connection, "removal", 1)) {
      for (Row row : rows) {
        seq++;
        Object[] line = {
          viewer.operatorId(),
          seq,
          Timestamp.from(row.at()),
          viewer.personId(),
          row.table(),
          row.id()
        };
        add(ledger, line);
        PreparedStatement into =
            switch (row.table()) {
              case "component" -> component;
              case "component_opening" -> opening;
              case "fitment" -> fitment;
              default -> removal;
            };
        add(into, all(row, seq));
      }
      ledger.executeBatch();
      component.executeBatch();
      opening.executeBatch();
      // Removals name their fitments; both move what the triggers keep, whose rules wait till last.
      fitment.executeBatch();
      removal.executeBatch();
    }
    connection.commit();
  }

  private static final Map<String, String> COLUMNS =
      Map.of(
          "component",
          "component_id, kind, part_number, serial, description, manufacturer",
          "component_opening",
          "component_id, counter, since_new, since_overhaul",
          "fitment",
          "component_id, aircraft_id, position_code, assembly_id, place, void, corrects, reason",
          "removal",
          "fitment_id");

  private static PreparedStatement statement(Connection connection, String table, int more)
      throws SQLException {
    return connection.prepareStatement(
        "insert into "
            + table
            + " (id, operator_id, ledger_seq, happened_at, happened_on, recorded_at, recorded_by, "
            + COLUMNS.get(table)
            + ") values (?"
            + ", ?".repeat(6 + more)
            + ")");
  }

  private Object[] all(Row row, long seq) {
    List<Object> all =
        new ArrayList<>(
            List.of(
                row.id(),
                viewer.operatorId(),
                seq,
                Timestamp.from(row.at()),
                java.sql.Date.valueOf(viewer.dateOf(row.at())),
                Timestamp.from(row.at()),
                viewer.personId()));
    if (row.table().equals("fitment")) {
      Spot spot = (Spot) row.values()[1];
      all.add(row.values()[0]);
      all.add(spot.aircraft());
      all.add(spot.aircraft() == null ? null : spot.name());
      all.add(spot.assembly());
      all.add(spot.assembly() == null ? null : spot.name());
      all.add(row.values()[2] != null);
      all.add(row.values()[2]);
      all.add(row.values()[3]);
    } else {
      all.addAll(List.of(row.values()));
    }
    return all.toArray();
  }

  private static void add(PreparedStatement statement, Object[] values) throws SQLException {
    for (int i = 0; i < values.length; i++) {
      if (values[i] == null) {
        statement.setNull(i + 1, java.sql.Types.OTHER);
      } else {
        statement.setObject(i + 1, values[i]);
      }
    }
    statement.addBatch();
  }

  private long size(Connection connection) throws SQLException {
    try (var statement = connection.createStatement();
        var rows =
            statement.executeQuery(
                "select size from ledger_head where operator_id = '" + viewer.operatorId() + "'")) {
      rows.next();
      return rows.getLong(1);
    }
  }
}
