package trestle.apron;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.net.URL;
import java.nio.file.Path;
import java.time.Instant;
import java.util.UUID;
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

/** The phone's outbox in a real browser that is truly off line, its service worker too. */
@QuarkusTest
class OutboxTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static int companies;

  @RegisterExtension static final Browser browser = new Browser();

  @TestHTTPResource("/")
  URL root;

  @Inject Hangar hangar;
  @Inject Flights flights;
  @Inject Operators operators;
  @Inject Members members;

  private Company company;
  private UUID aircraft;
  private String base;

  @BeforeEach
  void found() {
    company = Company.founded("outbox-" + companies++, operators, members);
    aircraft = hangar.single(company.viewer(Role.OWNER), "QX-SOR", BEGINNING);
    base = "http://localhost:" + root.getPort();
  }

  @Test
  void aFlightReportedOffLineAndTheBrowserClosedIsReceivedOnce(@TempDir Path profile) {
    try (BrowserContext context = browser.keeping(profile)) {
      Page page = context.newPage();
      signIn(page, Role.PILOT);
      formIsKept(page);
      context.setOffline(true);
      page.navigate(base + form());
      PlaywrightAssertions.assertThat(page.locator("form[data-ready]")).isVisible();
      fillIn(page, "09:00", "10:00");
      page.click("text=File this report");
      PlaywrightAssertions.assertThat(page.locator("#outbox li"))
          .containsText("On this phone, not sent yet");
    }
    assertThat(filed()).isZero();
    try (BrowserContext context = browser.keeping(profile)) {
      context.setOffline(true);
      Page page = context.newPage();
      page.navigate(base + "/outbox");
      PlaywrightAssertions.assertThat(page.locator("#outbox li"))
          .containsText("On this phone, not sent yet");
      assertThat(filed()).isZero();
      context.setOffline(false);
      PlaywrightAssertions.assertThat(page.locator("#outbox li")).containsText("Received as No. ");
      page.reload();
      PlaywrightAssertions.assertThat(page.locator("#outbox li")).hasCount(1);
    }
    assertThat(filed()).isEqualTo(1);
  }

  private void signIn(Page page, Role role) {
    Browser.signIn(page, base, role.word() + "@" + company.name(), Company.PASSWORD);
  }

  private String form() {
    return "/aircraft/" + aircraft + "/reports/new";
  }

  /** Waits until the worker runs and the form is in the phone's keeping. */
  private void formIsKept(Page page) {
    page.navigate(base + "/fleet");
    page.waitForFunction(
        "async path => navigator.serviceWorker.controller && !!(await caches.match(path))", form());
  }

  private static void fillIn(Page page, String takeOff, String landing) {
    page.fill("#date", "10 Mar 2025");
    page.fill("#from", "Port Maddern");
    page.fill("#to", "Skell Island");
    page.fill("#take-off", takeOff);
    page.fill("#landing", landing);
  }

  private long filed() {
    return flights.page(company.viewer(Role.PILOT), aircraft, View.EVERYTHING, 1).flights();
  }
}
