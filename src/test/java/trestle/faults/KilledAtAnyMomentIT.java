package trestle.faults;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import java.time.LocalDateTime;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import java.util.concurrent.ConcurrentSkipListSet;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import trestle.apron.Phone;
import trestle.people.Visitor;
import trestle.server.AppProcess;
import trestle.server.DataOnDisk;

/**
 * Eight writers file reports through HTTP while the program, its PostgreSQL, or both are killed
 * with SIGKILL, again and again: what was acknowledged is on file, once, in a ledger that is whole.
 * Three times here; {@code -Dtrestle.kills=200} for the campaign.
 */
class KilledAtAnyMomentIT {
  private static final int KILLS = Integer.getInteger("trestle.kills", 3);
  private static final int WRITERS = 8;
  private static final int REPORTS_BETWEEN_KILLS = 12;
  private static final int ONE_IN_HAS_A_DEFECT = 7;
  private static final Duration PATIENCE = Duration.ofMinutes(5);
  private static final LocalDateTime BEGINNING = LocalDateTime.of(2021, 1, 2, 0, 0);
  private static final String PASSWORD = "four words of no account";

  @TempDir Path parent;

  private final Random random = new Random(20261126);
  private final Set<String> acknowledged = new ConcurrentSkipListSet<>();
  private final Set<String> withDefect = new ConcurrentSkipListSet<>();
  private final AtomicInteger next = new AtomicInteger();
  private final AtomicBoolean enough = new AtomicBoolean();
  private Path directory;
  private DataOnDisk data;
  private String port;
  private AppProcess app;

  @Test
  void nothingAcknowledgedIsLostAndNothingIsFiledTwice() throws Exception {
    directory = parent.resolve("data");
    data = new DataOnDisk(directory);
    port = Integer.toString(freePort());
    app = start();
    List<String> fleet = fleet();
    ExecutorService writers = Executors.newFixedThreadPool(WRITERS);
    try {
      List<Future<?>> writing = new ArrayList<>();
      for (int i = 0; i < WRITERS; i++) {
        String aircraft = fleet.get(i % fleet.size());
        Phone phone = new Phone(app.url(), "ida", PASSWORD);
        writing.add(writers.submit(() -> write(phone, aircraft)));
      }
      for (int kill = 0; kill < KILLS; kill++) {
        awaitReports(REPORTS_BETWEEN_KILLS, writing);
        LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(random.nextInt(300)));
        kill(kill);
      }
      awaitReports(REPORTS_BETWEEN_KILLS, writing);
      enough.set(true);
      for (Future<?> writer : writing) {
        writer.get(PATIENCE.toSeconds(), TimeUnit.SECONDS);
      }
      check();
    } finally {
      writers.shutdownNow();
      app.close();
    }
  }

  private AppProcess start() {
    return AppProcess.on(directory).with("QUARKUS_HTTP_PORT", port).start().ready();
  }

  private static int freePort() throws IOException {
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getByName("127.0.0.1"))) {
      return socket.getLocalPort();
    }
  }

  private List<String> fleet() {
    Visitor owner = Visitor.atTheDoorOf(app.url());
    String code = app.output().replaceAll("(?s).*the code is (\\S+).*", "$1");
    owner.fillIn(
        "/first-steps",
        "/first-steps",
        Map.of("code", code, "name", "Ida Quill", "sign-in-name", "ida", "password", PASSWORD));
    owner.fillIn(
        "/operators/new",
        "/operators",
        Map.of("name", "Tern Air", "base", "Port Maddern", "time-zone", "America/St_Johns"));
    List<String> fleet = new ArrayList<>();
    for (int i = 0; i < 4; i++) {
      fleet.add(
          Visitor.leadsTo(
              owner.fillIn(
                  "/aircraft/new",
                  "/aircraft",
                  Map.of(
                      "registration", "QX-KL" + (char) ('A' + i),
                      "type", "Skerry 200",
                      "serial", "S-" + i,
                      "on", "1 Jan 2021",
                      "hours", "6,000",
                      "landings", "2,000",
                      "engines", "none"))));
    }
    return fleet;
  }

  private void write(Phone phone, String aircraft) {
    try {
      while (!enough.get()) {
        int number = next.getAndIncrement();
        String key = UUID.randomUUID().toString();
        boolean defect = number % ONE_IN_HAS_A_DEFECT == 0;
        phone.sentWithin(PATIENCE, aircraft + "/reports", report(number, key, defect));
        acknowledged.add(key);
        if (defect) {
          withDefect.add(key);
        }
      }
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  private static Map<String, String> report(int number, String key, boolean defect) {
    LocalDateTime off = BEGINNING.plusHours(2L * number);
    Map<String, String> report = new LinkedHashMap<>();
    report.put("form-key", key);
    report.put("date", off.toLocalDate().toString());
    report.put("from", "Port Maddern");
    report.put("to", "Port Maddern");
    report.put("take-off", off.toLocalTime().toString());
    report.put("landing", off.toLocalTime().plusMinutes(66).toString());
    report.put("landings", "1");
    report.put("commander", "R. Ness");
    if (defect) {
      report.put("anything-wrong", "defect");
      report.put("words", "Alternator light flickered, report " + number);
      report.put("judgement", "can-fly");
    } else {
      report.put("anything-wrong", "nothing");
    }
    return report;
  }

  private void awaitReports(int more, List<Future<?>> writing) throws Exception {
    int wanted = acknowledged.size() + more;
    long latest = System.nanoTime() + PATIENCE.toNanos();
    while (acknowledged.size() < wanted) {
      for (Future<?> writer : writing) {
        if (writer.isDone()) {
          writer.get();
        }
      }
      assertThat(System.nanoTime()).as("%d reports arrive", more).isLessThan(latest);
      LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(10));
    }
  }

  /** The program, its PostgreSQL, and both at once, in turn. */
  private void kill(int turn) {
    long postmaster = data.postmaster();
    if (turn % 3 != 1) {
      app.kill();
    }
    if (turn % 3 != 0) {
      ProcessHandle.of(postmaster).ifPresent(ProcessHandle::destroyForcibly);
    }
    if (turn % 3 != 1) {
      app = start();
    }
    // PostgreSQL alone: the program must see to it by itself.
  }

  private void check() throws SQLException, IOException {
    List<String> filed = data.ask("select form_key from flight");
    System.out.printf(
        "%d kills: %,d reports acknowledged, %,d on file%n",
        KILLS, acknowledged.size(), filed.size());
    assertThat(filed).as("filed twice").doesNotHaveDuplicates();
    assertThat(new TreeSet<>(filed)).as("acknowledged, on file").isEqualTo(acknowledged);
    assertThat(data.ask("select 1 from defect")).as("defects").hasSameSizeAs(withDefect);
    assertThat(data.faultsOfTheLedger(parent.resolve("after.zip"))).isEmpty();
    assertThat(
            data.ask(
                "select e.seq from ledger_entry e join ledger_head h using (operator_id)"
                    + " where e.seq > h.size"))
        .isEmpty();
  }
}
