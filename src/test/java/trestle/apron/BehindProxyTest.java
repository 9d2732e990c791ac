package trestle.apron;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.Cookie;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.net.URL;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Arrays;
import java.util.UUID;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.api.io.TempDir;
import trestle.fleet.Hangar;
import trestle.flights.Flights;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.web.Browser;
import trestle.web.Role;

/**
 * As operators run it: under a name of its own, not localhost, behind a proxy that speaks TLS. Only
 * then do browsers allow a service worker, and only if they trust the certificate.
 */
@QuarkusTest
class BehindProxyTest {
  private static final String HOST = "phone.example";
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");

  @RegisterExtension static final Browser browser = new Browser();

  @TestHTTPResource("/")
  URL root;

  @Inject Hangar hangar;
  @Inject Flights flights;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private UUID aircraft;

  @BeforeAll
  static void beingPatient() {
    PlaywrightAssertions.setDefaultAssertionTimeout(60_000);
  }

  @BeforeEach
  void found() {
    company = Company.founded("proxied-" + UUID.randomUUID(), operators, members);
    aircraft = hangar.single(company.viewer(Role.OWNER), "QX-SOR", BEGINNING);
  }

  @Test
  void overTlsCookiesAreSecureAndTheFormOpensWithoutASignal(@TempDir Path directory)
      throws Exception {
    Certificate certificate = Certificate.of(HOST, directory);
    try (LossyProxy tls = LossyProxy.secure(upstream(), certificate.tls());
        BrowserContext context =
            phone(
                directory.resolve("profile"),
                "--ignore-certificate-errors-spki-list=" + certificate.pin())) {
      String base = "https://" + HOST + ":" + tls.port();
      Page page = context.newPage();
      Browser.signIn(page, base, "pilot@" + company.name(), Company.PASSWORD);
      assertThat(context.cookies()).allMatch(cookie -> cookie.secure);
      assertThat(context.cookies())
          .extracting((Cookie cookie) -> cookie.name)
          .contains("__Host-trestle-form");
      Kept.waitFor(page, form());
      context.setOffline(true);
      page.navigate(base + form());
      assertThat(page.locator(".kept")).containsText("No signal.");
      report(page);
      assertThat(page.locator("#outbox li")).containsText("On this phone, not sent yet");
      assertThat(filed()).isZero();
      context.setOffline(false);
      assertThat(page.locator("#outbox li")).containsText("Received as No. ");
    }
    assertThat(filed()).isEqualTo(1);
  }

  @Test
  void withoutTlsNothingOpensOffLineButReportsAreKeptAndSent(@TempDir Path directory) {
    try (LossyProxy plain = LossyProxy.to(upstream(), LossyProxy.Chances.NONE, any -> false, 0);
        BrowserContext context = phone(directory.resolve("profile"))) {
      String base = "http://" + HOST + ":" + plain.port();
      Page page = context.newPage();
      Browser.signIn(page, base, "pilot@" + company.name(), Company.PASSWORD);
      page.navigate(base + form());
      assertThat(page.evaluate("'serviceWorker' in navigator")).isEqualTo(false);
      assertThat(page.locator("form[data-ready]")).isVisible();
      context.setOffline(true);
      report(page);
      assertThat(page.locator("main")).containsText("Leave this page open until there is a signal");
      context.setOffline(false);
      page.waitForCondition(() -> filed() == 1);
    }
  }

  private BrowserContext phone(Path profile, String... flags) {
    String[] all = Arrays.copyOf(flags, flags.length + 1);
    all[flags.length] = "--host-resolver-rules=MAP " + HOST + " 127.0.0.1";
    return browser.keeping(profile, all);
  }

  private String upstream() {
    return "http://127.0.0.1:" + root.getPort();
  }

  private String form() {
    return "/aircraft/" + aircraft + "/reports/new";
  }

  private static void report(Page page) {
    assertThat(page.locator("form[data-ready]")).isVisible();
    page.fill("#date", "10 Mar 2025");
    page.fill("#from", "Port Maddern");
    page.fill("#to", "Skell Island");
    page.fill("#take-off", "09:00");
    page.fill("#landing", "10:00");
    page.check("[name=anything-wrong][value=nothing]");
    page.click("text=File this report");
  }

  private long filed() {
    return flights.page(company.viewer(Role.PILOT), aircraft, View.EVERYTHING, 1).flights();
  }
}
