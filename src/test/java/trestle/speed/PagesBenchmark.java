package trestle.speed;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Files;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.junit.jupiter.api.Test;
import trestle.people.Company;
import trestle.server.AppProcess;
import trestle.server.TestDatabase;

/**
 * How fast pages of large operators come. The packaged program answers, started as a user starts
 * it; this process fills the database, drives, and files a flight a second all the while. Needs
 * -Dtrestle.test.durable=true: the program refuses a database that may forget.
 */
@QuarkusTest
class PagesBenchmark {
  private static final Duration WARM_UP = Duration.ofSeconds(20);
  private static final Duration MEASURED = Duration.ofSeconds(30);
  private static final int AT_ONCE = 16;

  @Inject LargeFleet large;

  @ConfigProperty(name = "quarkus.datasource.username")
  String user;

  @ConfigProperty(name = "quarkus.datasource.password")
  String password;

  @Test
  void pagesOfLargeFleets() throws Exception {
    LargeFleet.Made fifty = large.make("fifty-" + UUID.randomUUID(), 50, 200, 100);
    LargeFleet.Made thousand = large.make("thousand-" + UUID.randomUUID(), 1_000, 100, 5);
    try (AppProcess app = started()) {
      fleetPage(app, "50 aircraft, 200 requirements each", fifty, List.of("/fleet"));
      fleetPage(
          app,
          "1,000 aircraft, 100 requirements each",
          thousand,
          IntStream.rangeClosed(1, 20).mapToObj(page -> "/fleet?page=" + page).toList());
    }
  }

  @Test
  void anAircraftsPageBesideAnEmptyOne() throws Exception {
    LargeFleet.Made one = large.make("one-" + UUID.randomUUID(), 1, 100, 200);
    try (AppProcess app = started()) {
      saturated(app, one);
    }
  }

  private AppProcess started() throws IOException {
    return AppProcess.on(Files.createTempDirectory("trestle-speed"))
        .with("QUARKUS_DATASOURCE_JDBC_URL", TestDatabase.url())
        .with("QUARKUS_DATASOURCE_USERNAME", user)
        .with("QUARKUS_DATASOURCE_PASSWORD", password)
        .with("TRESTLE_OWNER_USERNAME", TestDatabase.OWNER)
        .with("TRESTLE_OWNER_PASSWORD", password)
        .asReadmeSays()
        .start()
        .ready();
  }

  private void fleetPage(AppProcess app, String what, LargeFleet.Made made, List<String> paths)
      throws Exception {
    Drive drive = drive(app, made);
    ScheduledExecutorService filing = Executors.newSingleThreadScheduledExecutor();
    AtomicInteger turn = new AtomicInteger();
    long begin = System.nanoTime();
    for (String path : paths) {
      drive.text(path);
    }
    say("  first asked for: %,d ms a page".formatted(milliseconds(begin) / paths.size()));
    drive.atRate(paths, 5, Duration.ofSeconds(10));
    drive.atRate(paths, 50, WARM_UP);
    Drive.Times quiet = drive.atRate(paths, 50, MEASURED);
    filing.scheduleAtFixedRate(
        () -> large.fly(made, turn.getAndIncrement()), 0, 1, TimeUnit.SECONDS);
    Drive.Times filed = drive.atRate(paths, 50, MEASURED);
    filing.shutdown();
    filing.awaitTermination(10, TimeUnit.SECONDS);
    say("Fleet page, %s, 50 requests/s".formatted(what));
    say("  nothing filed meanwhile: " + quiet);
    say("  a flight filed every second: " + filed);
    say("  %,d bytes compressed".formatted(drive.bytes(paths.get(0))));
  }

  private void saturated(AppProcess app, LargeFleet.Made made) throws Exception {
    Drive drive = drive(app, made);
    String aircraft = "/aircraft/" + made.aircraft().get(0);
    for (int i = 0; i < 3; i++) {
      drive.saturated("/no-such-page", 404, AT_ONCE, WARM_UP);
      drive.saturated(aircraft, 200, AT_ONCE, WARM_UP);
    }
    double empty = drive.saturated("/no-such-page", 404, AT_ONCE, MEASURED);
    double page = drive.saturated(aircraft, 200, AT_ONCE, MEASURED);
    say("Saturated, %d at once, signed in".formatted(AT_ONCE));
    say("  a page with nothing in its frame: %,.0f a second".formatted(empty));
    say(
        "  an aircraft with 100 requirements: %,.0f a second, %.2f of it"
            .formatted(page, page / empty));
    say("  %,d bytes compressed".formatted(drive.bytes(aircraft)));
  }

  private static Drive drive(AppProcess app, LargeFleet.Made made) throws Exception {
    return Drive.signedIn(app.url(), "pilot@" + made.company().name(), Company.PASSWORD);
  }

  private static long milliseconds(long begin) {
    return (System.nanoTime() - begin) / 1_000_000;
  }

  private static void say(String line) {
    System.out.println(line);
  }
}
