package trestle.server;

import io.quarkus.hibernate.orm.PersistenceUnitExtension;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.concurrent.Callable;
import org.hibernate.resource.jdbc.spi.StatementInspector;

/**
 * Counts the SQL statements of a piece of work, so that a test can show that their number does not
 * depend on the size. The one that opens each transaction by setting its walls is not counted.
 */
@ApplicationScoped
@PersistenceUnitExtension
public class StatementCount implements StatementInspector {
  private static final List<String> SEEN = Collections.synchronizedList(new ArrayList<>());

  @Override
  public String inspect(String sql) {
    SEEN.add(sql);
    BrokenCall.next();
    return sql;
  }

  /** The statements that Hibernate sent while the work ran, of all threads. */
  public static List<String> of(Callable<?> work) throws Exception {
    SEEN.clear();
    work.call();
    return List.copyOf(SEEN);
  }
}
