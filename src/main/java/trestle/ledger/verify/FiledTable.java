package trestle.ledger.verify;

import java.lang.reflect.Constructor;
import java.lang.reflect.Field;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.FiledJson;
import trestle.ledger.Kind;
import trestle.ledger.LedgerAircraft;
import trestle.ledger.verify.FiledColumn.Shape;

/**
 * One kind of filed row as it lies in the database.
 *
 * @param kind the ledger's word
 * @param columns in the order of their names, as canonical JSON has them
 * @param aircraft the SQL of the aircraft that the ledger's line names
 */
record FiledTable(
    String kind, int version, String name, List<FiledColumn> columns, String aircraft) {

  static FiledTable of(Class<? extends Filed> type) {
    Kind kind = type.getAnnotation(Kind.class);
    Map<String, FiledColumn> columns = new TreeMap<>();
    for (Field field : FiledJson.fields(type)) {
      columns.put(FiledJson.column(field), FiledColumn.of(field));
    }
    beside(columns, new FiledColumn("kind", Shape.PLAIN, false, kind.value()));
    beside(columns, new FiledColumn("version", Shape.WHOLE, false, "" + kind.version()));
    return new FiledTable(
        kind.value(),
        kind.version(),
        FiledJson.table(type),
        List.copyOf(columns.values()),
        aircraftOf(type));
  }

  /** A column of the same name goes before what is written beside the columns. */
  private static void beside(Map<String, FiledColumn> columns, FiledColumn constant) {
    columns.merge(
        constant.name(), constant, (column, same) -> column.otherwise(constant.otherwise()));
  }

  /** Asks the class itself, with a mark in the place of its aircraft. */
  private static String aircraftOf(Class<? extends Filed> type) {
    UUID mark = UUID.randomUUID();
    try {
      Constructor<? extends Filed> maker = type.getDeclaredConstructor();
      maker.setAccessible(true);
      Filed blank = maker.newInstance();
      for (Field field : own(type)) {
        if (field.getType() == UUID.class) {
          field.setAccessible(true);
          Object before = field.get(blank);
          field.set(blank, mark);
          if (mark.equals(blank.ledgerAircraft())) {
            return asked(field);
          }
          field.set(blank, before);
        }
      }
    } catch (ReflectiveOperationException e) {
      throw new IllegalStateException("A filed row can be made blank", e);
    }
    return "null::text";
  }

  /** The fields of the kind itself, not those that every filed row has. */
  private static List<Field> own(Class<?> type) {
    List<Field> own = new ArrayList<>();
    for (Class<?> at = type; at != Filed.class; at = at.getSuperclass()) {
      own.addAll(List.of(at.getDeclaredFields()));
    }
    return own;
  }

  private static String asked(Field field) {
    LedgerAircraft through = field.getAnnotation(LedgerAircraft.class);
    return through == null
        ? "t.\"" + FiledJson.column(field) + "\"::text"
        : "(select o.aircraft_id::text from %s o where o.operator_id = t.operator_id and o.id = t.%s)"
            .formatted(through.table(), through.by());
  }

  /** The row's canonical JSON, from its columns' texts in their order. */
  void write(StringBuilder to, Values row) {
    to.append('{');
    for (int i = 0; i < columns.size(); i++) {
      FiledColumn column = columns.get(i);
      String value = row.text(i) == null ? column.otherwise() : row.text(i);
      if (value != null) {
        column.write(name(to, column.name()), value);
      }
    }
    to.append('}');
  }

  private static StringBuilder name(StringBuilder to, String name) {
    if (to.charAt(to.length() - 1) != '{') {
      to.append(',');
    }
    return to.append('"').append(name).append("\":");
  }

  int index(String column) {
    for (int i = 0; i < columns.size(); i++) {
      if (columns.get(i).name().equals(column)) {
        return i;
      }
    }
    throw new IllegalArgumentException(name + " has no column " + column);
  }

  /** The texts of a row, by place. */
  interface Values {
    String text(int column);
  }
}
