package trestle.house;

import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.options.ColorScheme;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import trestle.house.Routes.Route;
import trestle.house.Yard.Rows;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.web.Axe;
import trestle.web.Browser;
import trestle.web.Role;

/**
 * Every page there is, in a real browser: as axe-core sees it, at the width of a phone and of a
 * desk, light and dark; no wider than the phone; and the same without any script. Its rows are
 * ugly: names of fifty letters without a blank.
 */
@QuarkusTest
class EveryPageTest {
  private static final String UGLY = "Brackwaterskellmaddernfjordsundholmvikstrandnesoey";
  private static final String TOO_WIDE = "document.scrollingElement.scrollWidth > innerWidth";
  private static final String WHAT_IS_WIDE =
      "[...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right >"
          + " innerWidth + 1).map(e => e.outerHTML.slice(0, 120)).slice(0, 3).join(' ')";
  private static final String HEADING =
      "sent => new DOMParser().parseFromString(sent, 'text/html').querySelector('h1').textContent";

  /** What browsers and scripts ask for: no pages. */
  private static final Set<String> NO_PAGES =
      Set.of(
          "/manifest.webmanifest",
          "/sw.js",
          "/outbox/pages",
          "/outbox/sender",
          "/proof/check-proof.sh",
          "/aircraft/{id}/status.pdf",
          "/aircraft/{id}/status.csv",
          "/aircraft/{id}/record-pack.zip",
          "/components/{id}/record-pack.zip",
          "/pilot-works/{id}/entry.pdf",
          "/work-orders/{id}/paper/work-order.pdf",
          "/work-orders/{id}/paper/release.pdf",
          "/work-orders/{id}/paper/log-entries.pdf",
          "/work-orders/{id}/paper/discrepancies.pdf",
          "/work-orders/{id}/paper/parts.pdf");

  @RegisterExtension static final Browser browser = new Browser();
  @RegisterExtension static final Browser second = Browser.ofItsOwn();

  @Inject Yard yard;
  @Inject Operators operators;
  @Inject Members members;

  @TestHTTPResource("/")
  String home;

  private static Rows rows;
  private static final AtomicInteger looked = new AtomicInteger();
  private final List<String> wrong = Collections.synchronizedList(new ArrayList<>());

  @BeforeEach
  void found() {
    if (rows == null) {
      rows = yard.founded(UGLY, "QX-UGLYEST");
    }
  }

  @Test
  void everyPageIsAccessibleFitsAPhoneAndNeedsNoScript() {
    List<String> paths = paths();
    int half = paths.size() / 2;
    CompletableFuture<Void> others =
        CompletableFuture.runAsync(() -> look(second, paths.subList(0, half)));
    look(browser, paths.subList(half, paths.size()));
    others.join();
    Page page = signedIn(browser.desk(), rows.company());
    for (String path : List.of("/nothing-here", "/failing/otherwise")) {
      page.navigate(url(path));
      look(page, path);
    }
    assertThat(wrong).isEmpty();
  }

  @Test
  void soAreFormsWithSomethingWrong() {
    Page page = signedIn(browser.desk(), rows.company());
    String on = "?aircraft=" + rows.aircraft();
    Map<String, String> filled = new HashMap<>();
    filled.put("/aircraft/new", "#hours");
    filled.put("/aircraft/" + rows.aircraft() + "/flights/new", "#landing");
    filled.put("/flights/" + rows.flight() + "/correction", "#landing");
    filled.put("/components/new", "#hours-new");
    filled.put("/requirements/new" + on, "#limit-1-every");
    filled.put("/requirements/" + rows.requirement() + "/compliances/new" + on, "#on");
    filled.put("/requirements/" + rows.requirement() + "/extensions/new" + on, "#new-due");
    filled.put("/members/" + rows.member(), "#expires-on");
    filled.forEach(
        (path, field) -> {
          open(page, path);
          page.fill(field, "12:75 <oops>");
          page.locator("main form:has(" + field + ") button.button").first().click();
          page.waitForLoadState();
          assertThat(page.title()).as(path).startsWith("Error: ");
          assertThat(page.inputValue(field)).isEqualTo("12:75 <oops>");
          look(page, path + " with errors");
        });
    assertThat(wrong).isEmpty();
  }

  @Test
  void soArePagesThatHaveNothingToShow() {
    Company empty = Company.founded("empty-" + UUID.randomUUID(), operators, members);
    Page page = signedIn(browser.desk(), empty);
    for (String path : List.of("/fleet", "/due-list", "/components", "/programmes", "/members")) {
      open(page, path);
      look(page, path + " empty");
    }
    assertThat(wrong).isEmpty();
  }

  @Test
  void soArePagesForWhoeverIsNotSignedIn() {
    Page page = browser.desk();
    for (String path : List.of("/sign-in", "/first-steps", "/nothing-here")) {
      page.navigate(url(path));
      look(page, path + " signed out");
    }
    page.navigate(url("/sign-in"));
    page.click("main form button");
    page.waitForLoadState();
    look(page, "sign-in with errors");
    assertThat(wrong).isEmpty();
  }

  private void look(Browser browser, List<String> paths) {
    Page page = signedIn(browser.desk(), rows.company());
    for (String path : paths) {
      open(page, path);
      look(page, path);
      needsNoScript(page, path);
    }
  }

  /** What a browser without script shows is what was sent. */
  private void needsNoScript(Page with, String path) {
    String sent = with.context().request().get(url(path)).text();
    assertThat((String) with.evaluate(HEADING, sent))
        .as(path)
        .isNotBlank()
        .isEqualTo(with.locator("h1").textContent());
  }

  private static List<String> paths() {
    return Routes.inCode().stream()
        .filter(route -> route.method().equals("GET"))
        .filter(route -> !route.path().startsWith("/assets/") && !route.path().startsWith("/api/"))
        .filter(route -> !NO_PAGES.contains(route.path()))
        .filter(route -> !route.path().matches("/(photos|directive-files|compliance-files)/.*"))
        .filter(route -> !route.path().contains("{") || Addresses.nameRow(route))
        .map((Route route) -> Addresses.of(route, rows))
        .toList();
  }

  private Page signedIn(Page page, Company company) {
    Browser.signIn(
        page,
        home.replaceAll("/$", ""),
        Role.OWNER.word() + "@" + company.name(),
        Company.PASSWORD);
    assertThat(page.url()).doesNotContain("sign-in");
    return page;
  }

  private void open(Page page, String path) {
    int status = page.navigate(url(path)).status();
    if (status != 200 && status != 403) {
      wrong.add(path + " answered " + status);
    }
  }

  private String url(String path) {
    return home.replaceAll("/$", "") + path;
  }

  /** Colours differ between schemes, hardly between widths; everything else between widths. */
  private void look(Page page, String what) {
    if (page.innerText("body").contains("NOT_FOUND")) {
      wrong.add(what + " shows something that its template could not find");
    }
    int dark = looked.getAndIncrement() % 2 == 0 ? Browser.PHONE : Browser.DESK;
    for (int width : new int[] {Browser.PHONE, Browser.DESK}) {
      page.setViewportSize(width, 900);
      if (width == Browser.PHONE && (Boolean) page.evaluate(TOO_WIDE)) {
        wrong.add(what + " is wider than a phone: " + page.evaluate(WHAT_IS_WIDE));
      }
      Axe.violations(page).forEach(found -> wrong.add(what + ", " + width + ": " + found));
      if (width == dark) {
        lookInTheDark(page, what + ", " + width + ", dark: ");
      }
    }
  }

  private void lookInTheDark(Page page, String what) {
    page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
    Axe.contrast(page).forEach(found -> wrong.add(what + found));
    page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.LIGHT));
  }
}
