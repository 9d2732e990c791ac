package trestle.server.backup;

import java.sql.Connection;
import java.sql.SQLException;
import java.util.UUID;
import java.util.stream.Collectors;

/** Whom an operator's rows name. */
final class People {
  private static final String REFERENCES =
      """
      select 'select ' || quote_ident(a.attname) || ' from ' || quote_ident(c.relname)
        || ' where ' || case when c.relname = 'operator' then 'id' else 'operator_id' end
      from pg_constraint f
      join pg_class c on c.oid = f.conrelid and c.relnamespace = current_schema()::regnamespace
      join pg_attribute a on a.attrelid = c.oid and a.attnum = f.conkey[1]
      where f.contype = 'f' and f.confrelid = 'person'::regclass and cardinality(f.conkey) = 1
        and c.relname not in ('session', 'administrator')
      order by 1
      """;

  private People() {}

  /** A query for the ids of all people whom a row of the operator refers to. */
  static String namedBy(Connection connection, UUID operator) throws SQLException {
    return Catalog.list(connection, REFERENCES).stream()
        .map(query -> "%s = '%s'".formatted(query, operator))
        .collect(Collectors.joining(" union "));
  }
}
