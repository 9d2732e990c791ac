package trestle.speed;

import com.google.gson.JsonObject;
import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.CDPSession;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ServiceWorkerPolicy;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.UUID;
import java.util.function.Supplier;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import trestle.apron.Kept;
import trestle.apron.Phone;
import trestle.people.Company;
import trestle.server.AppProcess;
import trestle.server.TestDatabase;
import trestle.web.Browser;

/**
 * How soon a pilot can type on a slow phone and a slow link, and how long the server takes to file
 * what was typed. The packaged program answers, on a database that forgets nothing.
 */
@QuarkusTest
class PhoneBenchmark {
  private static final int OPENINGS = 11;
  private static final int WARM_UP = 300;
  private static final int FILINGS = 600;
  private static final int A_DAY = 24;
  private static final int ONE_IN_HAS_A_DEFECT = 10;

  /** 1.6 Mb/s down and half of it up, 150 ms from a request to its answer. */
  private static final int BYTES_A_SECOND = 1_600_000 / 8;

  private static final int LATENCY_MS = 150;
  private static final int SLOWER = 4;

  /** Notes when the script has the form ready, in ms since the navigation began. */
  private static final String WATCH =
      "new MutationObserver(() => { if (!window.readyAt && document.querySelector("
          + "'form[data-ready]')) window.readyAt = performance.now(); }).observe(document,"
          + " { subtree: true, attributes: true, attributeFilter: ['data-ready'] });";

  private static final String PAINTED =
      "performance.getEntriesByName('first-contentful-paint')[0]?.startTime ?? 0";

  @RegisterExtension static final Browser browser = new Browser();

  @Inject LargeFleet large;

  @ConfigProperty(name = "quarkus.datasource.username")
  String user;

  @ConfigProperty(name = "quarkus.datasource.password")
  String password;

  @Test
  void aReportOnASlowPhone() throws Exception {
    LargeFleet.Made made = large.make("phone-" + UUID.randomUUID(), 50, 100, 100);
    try (AppProcess app =
        AppProcess.on(java.nio.file.Files.createTempDirectory("trestle-phone"))
            .with("QUARKUS_DATASOURCE_JDBC_URL", TestDatabase.url())
            .with("QUARKUS_DATASOURCE_USERNAME", user)
            .with("QUARKUS_DATASOURCE_PASSWORD", password)
            .with("TRESTLE_OWNER_USERNAME", TestDatabase.OWNER)
            .with("TRESTLE_OWNER_PASSWORD", password)
            .asReadmeSays()
            .start()
            .ready()) {
      String pilot = "pilot@" + made.company().name();
      filing(new Phone(app.url(), pilot, Company.PASSWORD), made);
      String form = "/aircraft/" + made.aircraft().get(0) + "/reports/new";
      opening(app.url(), pilot, form);
    }
  }

  private static void filing(Phone phone, LargeFleet.Made made) throws Exception {
    double[] milliseconds = new double[FILINGS];
    for (int i = 0; i < WARM_UP + FILINGS; i++) {
      UUID aircraft = made.aircraft().get(i % made.aircraft().size());
      Map<String, String> report = report(i / made.aircraft().size(), i);
      long begin = System.nanoTime();
      phone.sent("/aircraft/" + aircraft + "/reports", report);
      if (i >= WARM_UP) {
        milliseconds[i - WARM_UP] = (System.nanoTime() - begin) / 1e6;
      }
    }
    Arrays.sort(milliseconds);
    say("Filing a report, one after the other, one in ten with a defect");
    say("  " + new Drive.Times(milliseconds).toString().replace("pages", "reports"));
  }

  /** The flights of one aircraft, an hour apart, since the day before yesterday. */
  private static Map<String, String> report(int turn, int number) {
    LocalDate day = LocalDate.now(ZoneOffset.UTC).minusDays(2).plusDays(turn / A_DAY);
    LocalTime off = LocalTime.of(turn % A_DAY, 10);
    Map<String, String> report = new LinkedHashMap<>();
    report.put("form-key", UUID.randomUUID().toString());
    report.put("date", day.toString());
    report.put("from", "Port Maddern");
    report.put("to", "Port Maddern");
    report.put("take-off", off.toString());
    report.put("landing", off.plusMinutes(35).toString());
    report.put("landings", "1");
    report.put("commander", "A. Pilot");
    boolean defect = number % ONE_IN_HAS_A_DEFECT == 0;
    report.put("anything-wrong", defect ? "defect" : "nothing");
    if (defect) {
      report.put("words", "Alternator light flickered, report " + number);
      report.put("judgement", "can-fly");
    }
    return report;
  }

  private static void opening(String url, String pilot, String form) {
    BrowserContext phone = browser.context(Browser.options(Browser.PHONE));
    Page first = phone.newPage();
    Browser.signIn(first, url, pilot, Company.PASSWORD);
    String session = phone.storageState();
    Supplier<BrowserContext> empty =
        () ->
            browser.context(
                Browser.options(Browser.PHONE)
                    .setStorageState(session)
                    .setServiceWorkers(ServiceWorkerPolicy.BLOCK));
    say("Opening the report form, 1.6 Mb/s, 150 ms, processor / 4 (median, longest)");
    times("nothing kept", url + form, false, empty);
    // Of fifty aircraft a phone keeps those that its person flies or looks at.
    first.navigate(url + form);
    Kept.waitFor(first, form);
    phone.setOffline(true);
    times("kept on the phone, no signal", url + form, true, () -> phone);
  }

  private static void times(
      String what, String url, boolean offLine, Supplier<BrowserContext> contexts) {
    double[] painted = new double[OPENINGS];
    double[] ready = new double[OPENINGS];
    for (int i = 0; i < OPENINGS; i++) {
      BrowserContext context = contexts.get();
      Page page = context.newPage();
      throttle(context.newCDPSession(page), offLine);
      page.addInitScript(WATCH);
      page.navigate(url);
      page.waitForSelector("form[data-ready]");
      painted[i] = number(page, PAINTED);
      ready[i] = Math.max(painted[i], number(page, "window.readyAt"));
      page.close();
    }
    say(
        "  %s: painted %s ms, ready to be filled in and kept %s ms"
            .formatted(what, middle(painted), middle(ready)));
  }

  private static void throttle(CDPSession session, boolean offLine) {
    JsonObject link = new JsonObject();
    link.addProperty("offline", offLine);
    link.addProperty("latency", LATENCY_MS);
    link.addProperty("downloadThroughput", BYTES_A_SECOND);
    link.addProperty("uploadThroughput", BYTES_A_SECOND / 2);
    session.send("Network.enable");
    session.send("Network.emulateNetworkConditions", link);
    JsonObject processor = new JsonObject();
    processor.addProperty("rate", SLOWER);
    session.send("Emulation.setCPUThrottlingRate", processor);
  }

  private static double number(Page page, String script) {
    return ((Number) page.evaluate(script)).doubleValue();
  }

  private static String middle(double[] times) {
    double[] sorted = times.clone();
    Arrays.sort(sorted);
    return "%.0f, %.0f".formatted(sorted[sorted.length / 2], sorted[sorted.length - 1]);
  }

  private static void say(String line) {
    System.out.println(line);
  }
}
