package trestle.server;

import static java.nio.charset.StandardCharsets.UTF_8;

import io.quarkus.test.junit.QuarkusTest;
import java.io.InputStream;
import java.sql.Connection;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CyclicBarrier;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;

/** What runs before every migration, by nodes that start at the same moment. */
@QuarkusTest
class BeforeMigrateTest {
  private static final int NODES = 4;
  private static final int STARTS = 40;

  @Test
  void nodesThatStartAtOnceGrantOneAfterTheOther() throws Exception {
    String script = script();
    CyclicBarrier start = new CyclicBarrier(NODES);
    ExecutorService nodes = Executors.newFixedThreadPool(NODES);
    try (SpareDatabase spare = SpareDatabase.empty()) {
      List<Future<?>> all = new ArrayList<>();
      for (int node = 0; node < NODES; node++) {
        all.add(nodes.submit(() -> starts(spare, start, script)));
      }
      for (Future<?> one : all) {
        one.get();
      }
    } finally {
      nodes.shutdownNow();
    }
  }

  private static Void starts(SpareDatabase spare, CyclicBarrier start, String script)
      throws Exception {
    try (Connection connection = spare.asOwner()) {
      connection.setAutoCommit(false);
      for (int i = 0; i < STARTS; i++) {
        start.await();
        try {
          SpareDatabase.execute(connection, script);
          connection.commit();
        } catch (Exception e) {
          start.reset();
          throw e;
        }
      }
    }
    return null;
  }

  private static String script() throws Exception {
    try (InputStream in =
        BeforeMigrateTest.class.getResourceAsStream("/db/migration/beforeMigrate.sql")) {
      return new String(in.readAllBytes(), UTF_8)
          .replace("${flyway:defaultSchema}", "public")
          .replace("${appUser}", TestDatabase.APP);
    }
  }
}
