package trestle.records.pack;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import trestle.programme.RequirementSheet;

/** Reads the tables that a pack has beside its records. */
final class ContextTables {
  private static final long MOST_OF_TEXT = 64L << 20;

  private ContextTables() {}

  static Map<UUID, RequirementSheet> requirements(PackFile pack) {
    Map<UUID, RequirementSheet> all = new HashMap<>();
    for (CSVRecord row : table(pack, PackNames.REQUIREMENTS)) {
      UUID id = id(row.get("id"));
      all.put(
          id,
          new RequirementSheet(
              id,
              optional(row.get("programme_id")),
              optional(row.get("aircraft_id")),
              optional(row.get("component_id")),
              row.get("part_number").isEmpty() ? null : row.get("part_number"),
              row.get("subject")));
    }
    return all;
  }

  static Map<UUID, List<String>> names(PackFile pack) {
    Map<UUID, List<String>> names = new HashMap<>();
    for (String table : List.of(PackNames.AIRCRAFT, PackNames.COMPONENTS)) {
      for (CSVRecord row : table(pack, table)) {
        names.put(id(row.get(0)), List.of(row.get(1), row.get(2), row.get(3)));
      }
    }
    return names;
  }

  static Set<UUID> ids(PackFile pack, String table, String part) {
    Set<UUID> ids = new HashSet<>();
    for (CSVRecord row : table(pack, table)) {
      if (row.get("part").equals(part)) {
        ids.add(id(row.get("id")));
      }
    }
    return ids;
  }

  static List<CSVRecord> table(PackFile pack, String name) {
    String text = new String(pack.bytes(name, MOST_OF_TEXT), UTF_8);
    try (var parser =
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .get()
            .parse(new StringReader(text))) {
      return new ArrayList<>(parser.getRecords());
    } catch (IOException | RuntimeException e) {
      throw PackFile.refused("Its file “" + name + "” is no table.");
    }
  }

  static UUID id(String text) {
    try {
      return UUID.fromString(text);
    } catch (IllegalArgumentException e) {
      throw PackFile.refused("“" + text + "” in one of its tables is no id.");
    }
  }

  static UUID optional(String text) {
    return text.isEmpty() ? null : id(text);
  }

  static String name(String text) {
    String bare = text.strip();
    if (bare.isEmpty()) {
      throw PackFile.refused("It names nobody where a name is needed.");
    }
    return bare.length() > 120 ? bare.substring(0, 120) : bare;
  }
}
