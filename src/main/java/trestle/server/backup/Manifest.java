package trestle.server.backup;

import java.time.Instant;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import trestle.formats.Json;
import trestle.formats.JsonText;
import trestle.formats.MalformedJson;

/**
 * What a backup says of itself: by which program, of which schema, what lies in its parts, and the
 * ledgers' heads.
 *
 * @param schema the newest migration that the tables had had
 * @param operator the only one it holds, or null: the whole installation
 */
record Manifest(
    String program,
    String schema,
    Instant taken,
    UUID operator,
    List<Table> tables,
    List<Ledger> ledgers,
    List<Part> parts) {

  static final String FILE = "manifest.json";
  private static final String FORMAT = "trestle-backup";
  private static final long VERSION = 1;

  /** A table with the columns that its parts hold, in their order. */
  record Table(String name, List<String> columns) {}

  /** One operator's ledger: its size and root in hexadecimal. */
  record Ledger(UUID operator, String name, long size, String root) {}

  /**
   * Rows of one table, of one operator or (null) of the installation.
   *
   * @param bytes as unpacked
   */
  record Part(String file, String table, UUID operator, long rows, long bytes, String sha256) {}

  long rows() {
    return parts.stream().mapToLong(Part::rows).sum();
  }

  long rowsOf(String table) {
    return parts.stream().filter(part -> part.table.equals(table)).mapToLong(Part::rows).sum();
  }

  Table table(String name) {
    return tables.stream().filter(table -> table.name.equals(name)).findFirst().orElseThrow();
  }

  String text() {
    return JsonText.write(
        Json.object()
            .put("format", FORMAT)
            .put("version", VERSION)
            .put("program", program)
            .put("schema", schema)
            .put("taken", taken.toString())
            .put("operator", operator == null ? null : operator.toString())
            .put("tables", new Json.Arr(tables.stream().map(Manifest::json).toList()))
            .put("ledgers", new Json.Arr(ledgers.stream().map(Manifest::json).toList()))
            .put("parts", new Json.Arr(parts.stream().map(Manifest::json).toList()))
            .build());
  }

  private static Json json(Table table) {
    List<Json> columns = table.columns.stream().map(Json::of).toList();
    return Json.object().put("name", table.name).put("columns", new Json.Arr(columns)).build();
  }

  private static Json json(Ledger ledger) {
    return Json.object()
        .put("operator", ledger.operator.toString())
        .put("name", ledger.name)
        .put("size", ledger.size)
        .put("root", ledger.root)
        .build();
  }

  private static Json json(Part part) {
    return Json.object()
        .put("file", part.file)
        .put("table", part.table)
        .put("operator", part.operator == null ? null : part.operator.toString())
        .put("rows", part.rows)
        .put("bytes", part.bytes)
        .put("sha256", part.sha256)
        .build();
  }

  /**
   * @throws BackupRefused when it is no manifest, or one of a later format
   */
  static Manifest read(byte[] utf8) {
    try {
      Json.Obj top = object(JsonText.parse(utf8));
      if (!text(top, "format").equals(FORMAT)) {
        throw new BackupRefused("It is not a backup of Trestle's.");
      }
      if (number(top, "version") > VERSION) {
        throw new BackupRefused(
            "It was written by a newer Trestle (%s). Restore it with that one or a later."
                .formatted(text(top, "program")));
      }
      return new Manifest(
          text(top, "program"),
          text(top, "schema"),
          Instant.parse(text(top, "taken")),
          id(top, "operator"),
          list(top, "tables", Manifest::table),
          list(top, "ledgers", Manifest::ledger),
          list(top, "parts", Manifest::part));
    } catch (MalformedJson | IllegalArgumentException | DateTimeParseException e) {
      throw new BackupRefused("Its manifest can't be read: " + e.getMessage());
    }
  }

  private static Table table(Json.Obj json) {
    return new Table(
        text(json, "name"),
        items(json, "columns").stream().map(item -> ((Json.Str) item).text()).toList());
  }

  private static Ledger ledger(Json.Obj json) {
    return new Ledger(
        id(json, "operator"), text(json, "name"), number(json, "size"), text(json, "root"));
  }

  private static Part part(Json.Obj json) {
    return new Part(
        text(json, "file"),
        text(json, "table"),
        id(json, "operator"),
        number(json, "rows"),
        number(json, "bytes"),
        text(json, "sha256"));
  }

  private static <T> List<T> list(Json.Obj json, String name, Function<Json.Obj, T> read) {
    List<T> all = new ArrayList<>();
    items(json, name).forEach(item -> all.add(read.apply(object(item))));
    return List.copyOf(all);
  }

  private static List<Json> items(Json.Obj json, String name) {
    if (json.get(name) instanceof Json.Arr array) {
      return array.items();
    }
    throw new IllegalArgumentException("\"" + name + "\" is missing or no list");
  }

  private static Json.Obj object(Json json) {
    if (json instanceof Json.Obj object) {
      return object;
    }
    throw new IllegalArgumentException("an object is missing");
  }

  private static String text(Json.Obj json, String name) {
    if (json.get(name) instanceof Json.Str string) {
      return string.text();
    }
    throw new IllegalArgumentException("\"" + name + "\" is missing or no text");
  }

  private static long number(Json.Obj json, String name) {
    if (json.get(name) instanceof Json.Num number && number.text().matches("\\d{1,18}")) {
      return Long.parseLong(number.text());
    }
    throw new IllegalArgumentException("\"" + name + "\" is missing or no count");
  }

  private static UUID id(Json.Obj json, String name) {
    return json.get(name) instanceof Json.Str string ? UUID.fromString(string.text()) : null;
  }
}
