package trestle.apron;

import static com.microsoft.playwright.assertions.PlaywrightAssertions.assertThat;
import static org.assertj.core.api.Assertions.assertThat;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.Locator;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Route;
import com.microsoft.playwright.assertions.PlaywrightAssertions;
import com.microsoft.playwright.options.FilePayload;
import io.quarkus.test.common.http.TestHTTPResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.URL;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Instant;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.RegisterExtension;
import org.junit.jupiter.api.io.TempDir;
import trestle.defects.DefectBook;
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
  private static final String UNSENT = "On this phone, not sent yet";
  private static final double PATIENCE_MS = 60_000;

  /** From the first moment: what is set later, a starting browser's service worker forestalls. */
  private static final String[] NO_NETWORK = {
    "--proxy-server=127.0.0.1:9", "--proxy-bypass-list=<-loopback>"
  };

  private static int companies;

  @RegisterExtension static final Browser browser = new Browser();

  @TestHTTPResource("/")
  URL root;

  @Inject Hangar hangar;
  @Inject Flights flights;
  @Inject DefectBook defects;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Ramp ramp;

  private Company company;
  private UUID aircraft;
  private String base;

  @BeforeAll
  static void beingPatient() {
    PlaywrightAssertions.setDefaultAssertionTimeout(PATIENCE_MS);
  }

  @BeforeEach
  void found() {
    company = Company.founded("outbox-" + companies++, operators, members);
    aircraft = hangar.single(company.viewer(Role.OWNER), "QX-SOR", BEGINNING);
    base = "http://localhost:" + root.getPort();
  }

  /** The life of a report: written without a signal, the browser closed, received once. */
  @Test
  void aFlightWithADefectWrittenOffLineIsReceivedOnceAndHoldsTheAircraft(@TempDir Path profile)
      throws IOException {
    UUID clear = ramp.bare(company.viewer(Role.OWNER), "Skerry 200", "QX-AUK");
    String preFlight = "/aircraft/" + clear + "/pre-flight";
    try (BrowserContext context = browser.keeping(profile)) {
      Page page = opened(context, Role.PILOT);
      Kept.waitFor(page, preFlight);
      context.setOffline(true);
      page.navigate(base + preFlight);
      assertThat(page.locator(".kept"))
          .containsText("No signal. This page is as this phone kept it");
      assertThat(page.locator("main .standing")).hasText("Clear");
      assertThat(page.locator("main form")).hasCount(1);
      assertThat(page.locator("main form")).isHidden();
      form(page);
      assertThat(page.locator(".kept")).containsText("No signal.");
      fillIn(page, "09:00", "10:00");
      page.check("[name=anything-wrong][value=defect]");
      page.fill("#words", "Alternator light flickered twice in the climb");
      page.check("[name=judgement][value=must-not-fly]");
      page.fill("#system", "alternator");
      page.setInputFiles("#photos", new FilePayload("light.jpg", "image/jpeg", jpeg()));
      page.click("text=File this report");
      assertThat(page.locator("#outbox li")).containsText(UNSENT + ", with 1 photo");
    }
    assertThat(filed()).isZero();
    try (BrowserContext context = browser.keeping(profile, NO_NETWORK)) {
      Page page = context.newPage();
      page.navigate(base + "/outbox");
      assertThat(page.locator("#outbox li")).containsText(UNSENT);
      assertThat(filed()).isZero();
    }
    try (BrowserContext context = browser.keeping(profile)) {
      Page page = context.newPage();
      page.navigate(base + "/outbox");
      assertThat(page.locator("#outbox li")).containsText("Received as No. ");
      page.reload();
      assertThat(page.locator("#outbox li")).hasCount(1);
      page.click("#outbox li a");
      assertThat(page.locator("main")).containsText("Held");
      assertThat(page.locator("main")).containsText("Alternator light flickered");
    }
    assertThat(filed()).isEqualTo(1);
    var found = defects.page(company.viewer(Role.ENGINEER), aircraft, false, 1);
    assertThat(found.defects()).isEqualTo(1);
    assertThat(found.entries().get(0).current().photos()).hasSize(1);
    assertThat(company.visitor(Role.ENGINEER).get("/defects").asString())
        .contains("Alternator light flickered twice in the climb");
  }

  @Test
  void whereThereIsASignalThePageThatFollowsSaysThatItWasReceived() {
    Page page = opened(phone(), Role.PILOT);
    form(page);
    report(page, "09:00", "10:00");
    assertThat(page.locator("h1")).containsText("Received as No. ");
    form(page);
    report(page, "11:00", "12:00");
    assertThat(page.locator("h1")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(2);
  }

  @Test
  void oneThatIsRefusedDoesNotBlockTheOthersAndIsPutRight() {
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    context.setOffline(true);
    form(page);
    report(page, "09:00", "10:81");
    assertThat(page.locator("#outbox li")).hasCount(1);
    form(page);
    report(page, "11:00", "12:00");
    assertThat(page.locator("#outbox li")).hasCount(2);
    context.setOffline(false);
    assertThat(page.locator("#outbox")).containsText("Received as No. ");
    assertThat(page.locator("#outbox")).containsText("Landing must be a time");
    assertThat(filed()).isEqualTo(1);
    page.click("text=Open it and put it right");
    assertThat(page.locator("#landing-error")).isVisible();
    assertThat(page.locator("form[data-ready]")).isVisible();
    assertThat(page.locator("#landing")).hasValue("10:81");
    page.fill("#landing", "10:18");
    page.click("text=File this report");
    assertThat(page.locator("h1")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(2);
  }

  @Test
  void aDefectFoundOnTheGroundIsKeptWithoutASignalToo() throws IOException {
    BrowserContext context = phone();
    Page page = opened(context, Role.ENGINEER);
    Kept.waitFor(page, "/defects/new");
    context.setOffline(true);
    page.navigate(base + "/defects/new?aircraft=" + aircraft + "&place=Left%20main%20wheel");
    assertThat(page.locator("form[data-ready]")).isVisible();
    assertThat(page.locator("#aircraft")).hasValue(aircraft.toString());
    assertThat(page.locator("#place")).hasValue("Left main wheel");
    page.fill("#words", "Tyre is flat");
    page.check("[name=judgement][value=must-not-fly]");
    page.setInputFiles("#photos", new FilePayload("tyre.jpg", "image/jpeg", jpeg()));
    page.click("text=File this defect");
    assertThat(page.locator("#outbox li"))
        .containsText("QX-SOR, defect: Tyre is flat" + UNSENT + ", with 1 photo");
    context.setOffline(false);
    assertThat(page.locator("#outbox li")).containsText("Received as defect No. 1");
    page.click("#outbox li a");
    assertThat(page.locator("main")).containsText("Left main wheel");
    var found = defects.page(company.viewer(Role.ENGINEER), aircraft, false, 1);
    assertThat(found.defects()).isEqualTo(1);
    assertThat(found.entries().get(0).current().photos()).hasSize(1);
    assertThat(filed()).as("no flight").isZero();
  }

  @Test
  void anAbnormalEventIsKeptWithoutASignalToo() {
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    Kept.waitFor(page, "/abnormal-events/new");
    context.setOffline(true);
    page.navigate(base + "/abnormal-events/new?aircraft=" + aircraft);
    assertThat(page.locator("form[data-ready]")).isVisible();
    page.selectOption("#kind", "hail");
    page.fill("#words", "Marble-sized");
    page.click("text=File this event");
    assertThat(page.locator("#outbox li")).containsText("QX-SOR, event: Marble-sized" + UNSENT);
    context.setOffline(false);
    assertThat(page.locator("#outbox li")).containsText("Received as event No. 1");
  }

  @Test
  void fuelThatDisagreesIsAskedAboutOnThePhoneAndAnsweredThere() {
    company
        .visitor(Role.OWNER)
        .fillIn(
            "/aircraft/" + aircraft + "/fuel-and-oil/arrangement",
            "/arrangement",
            Map.of("tanks", "Main tanks: 148", "burn", "40", "tolerance", "3"));
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    form(page);
    page.fill("#fuel-dip-main-tanks", "120");
    report(page, "09:00", "10:00");
    assertThat(page.locator("h1")).containsText("Received as No. ");
    context.setOffline(true);
    form(page);
    page.fill("#fuel-dip-main-tanks", "40");
    report(page, "11:00", "12:00");
    assertThat(page.locator("#outbox li:first-child")).containsText(UNSENT);
    context.setOffline(false);
    assertThat(page.locator("#outbox li:first-child"))
        .containsText("not filed yet: a question on it");
    assertThat(page.locator("#outbox li:first-child"))
        .containsText("All tanks: about 80 litres expected, 40 read: 40 less");
    assertThat(page.locator(".unsent"))
        .hasText("1 report on this phone not filed yet: a question on it");
    page.click("text=Open it and answer");
    assertThat(page.locator("#fluid-remark-error")).containsText("40 less, more than your 3 %");
    assertThat(page.locator("form[data-ready]")).isVisible();
    assertThat(page.locator("#fuel-dip-main-tanks")).hasValue("40");
    page.fill("#fluid-remark", "Drained 40 for the tank check");
    page.click("text=File this report");
    assertThat(page.locator("h1")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(2);
  }

  @Test
  void anEndedSessionAsksToSignInAndKeepsTheReport() {
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    context.setOffline(true);
    form(page);
    report(page, "09:00", "10:00");
    assertThat(page.locator("#outbox li")).containsText(UNSENT);
    context.clearCookies();
    context.setOffline(false);
    page.click("#outbox-sign-in a");
    assertThat(filed()).isZero();
    page.fill("input[name=name]", "pilot@" + company.name());
    page.fill("input[name=password]", Company.PASSWORD);
    page.click("main form button");
    assertThat(page.locator("#outbox li")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(1);
  }

  @Test
  void signedOutItStaysUnseenAndUnsentByOthersUntilItsWriterIsBack() {
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    context.setOffline(true);
    form(page);
    report(page, "09:00", "10:00");
    assertThat(page.locator("#outbox li")).containsText(UNSENT);
    refuseReports(context);
    context.setOffline(false);
    page.click("text=Sign out");
    assertThat(page.locator("[role=alert]")).containsText("1 report on this phone is not sent yet");
    page.click("text=Sign out all the same");
    assertThat(page.locator("h1")).containsText("Sign in");
    context.unrouteAll();
    Page engineers = opened(context, Role.ENGINEER);
    engineers.navigate(base + "/outbox");
    assertThat(engineers.locator("#outbox-others")).containsText("1 report of somebody else");
    assertThat(engineers.locator("#outbox li")).hasCount(0);
    assertThat(engineers.locator("main")).not().containsText("Skell Island");
    assertThat(filed()).isZero();
    engineers.click("text=Sign out");
    assertThat(engineers.locator("h1")).containsText("Sign in");
    Browser.signIn(engineers, base, "pilot@" + company.name(), Company.PASSWORD);
    engineers.navigate(base + "/outbox");
    assertThat(engineers.locator("#outbox li")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(1);
  }

  @Test
  void twoTabsSendItOnce() {
    BrowserContext context = phone();
    Page one = opened(context, Role.PILOT);
    Page two = context.newPage();
    two.navigate(base + "/outbox");
    context.setOffline(true);
    form(one);
    report(one, "09:00", "10:00");
    assertThat(two.locator("#outbox li")).containsText(UNSENT);
    AtomicInteger sent = new AtomicInteger();
    context.onRequest(
        request -> {
          if (request.method().equals("POST") && request.url().endsWith("/reports")) {
            sent.incrementAndGet();
          }
        });
    context.setOffline(false);
    assertThat(one.locator("#outbox li")).containsText("Received as No. ");
    assertThat(two.locator("#outbox li")).containsText("Received as No. ");
    assertThat(sent).hasValue(1);
    assertThat(filed()).isEqualTo(1);
  }

  @Test
  void aFullPhoneSaysSoAndTheFormStays() {
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    context.setOffline(true);
    form(page);
    fillIn(page, "09:00", "10:00");
    page.check("[name=anything-wrong][value=nothing]");
    page.evaluate(
        "() => { IDBObjectStore.prototype.put ="
            + " function () { throw new DOMException('full', 'QuotaExceededError'); }; }");
    page.click("text=File this report");
    assertThat(page.locator("[role=alert]")).containsText("This phone has no room");
    assertThat(page.locator("#take-off")).hasValue("09:00");
    context.setOffline(false);
    page.click("text=send it without keeping it");
    assertThat(page.locator("h1")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(1);
  }

  /** As a hotel's network answers: with a page of its own, and cheerfully. */
  @Test
  void noAnswerButTheServersOwnCountsAsReceived() {
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    context.route(
        "**/reports",
        route ->
            route.fulfill(
                new Route.FulfillOptions().setContentType("text/html").setBody("Welcome")));
    form(page);
    report(page, "09:00", "10:00");
    assertThat(page.locator("#outbox li")).containsText(UNSENT);
    assertThat(filed()).isZero();
    context.unrouteAll();
    sendNow(page);
    assertThat(page.locator("#outbox li")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(1);
  }

  /** One that the server fails on, or that something else answers, waits; the others go. */
  @Test
  void oneThatTheServerCannotTakeNowDoesNotBlockTheOthers() {
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    context.setOffline(true);
    form(page);
    report(page, "09:00", "10:00");
    assertThat(page.locator("#outbox li")).hasCount(1);
    form(page);
    report(page, "11:00", "12:00");
    assertThat(page.locator("#outbox li")).hasCount(2);
    form(page);
    report(page, "13:00", "14:00");
    assertThat(page.locator("#outbox li")).hasCount(3);
    context.route("**/reports", route -> answered(route));
    context.setOffline(false);
    assertThat(page.locator("#outbox li:nth-child(1)")).containsText("Received as No. ");
    assertThat(page.locator("#outbox li:nth-child(2)")).containsText(UNSENT);
    assertThat(page.locator("#outbox li:nth-child(3)")).containsText(UNSENT);
    assertThat(filed()).isEqualTo(1);
    context.unrouteAll();
    sendNow(page);
    assertThat(page.locator("#outbox li:nth-child(3)")).containsText("Received as No. ");
    assertThat(page.locator("#outbox li:nth-child(2)")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(3);
  }

  private static void answered(Route route) {
    String sent = new String(route.request().postDataBuffer(), StandardCharsets.ISO_8859_1);
    if (sent.contains("09:00")) {
      route.fulfill(new Route.FulfillOptions().setStatus(500).setBody("Failed"));
    } else if (sent.contains("11:00")) {
      route.fulfill(new Route.FulfillOptions().setStatus(403).setBody("Not from here"));
    } else {
      route.resume();
    }
  }

  /** Presses the button where it still stands: the page tries again by itself and may be first. */
  private static void sendNow(Page page) {
    page.evaluate(
        "() => [...document.querySelectorAll('button')]"
            + ".filter(button => button.textContent === 'Send now')"
            + ".forEach(button => button.click())");
  }

  @Test
  void aReportKeptByTheReleaseBeforeIsSent() {
    BrowserContext context = phone();
    Page page = opened(context, Role.PILOT);
    Map<String, Object> entry =
        Map.of(
            "key",
            UUID.randomUUID().toString(),
            "format",
            1,
            "person",
            company.people().get(Role.PILOT).toString(),
            "operator",
            company.operatorId().toString(),
            "action",
            "/aircraft/" + aircraft + "/reports",
            "title",
            "QX-SOR",
            "made",
            1,
            "state",
            "waiting",
            "fields",
            Map.of(
                "date",
                "10 Mar 2025",
                "from",
                "Here",
                "to",
                "There",
                "take-off",
                "09:00",
                "landing",
                "10:00",
                "landings",
                "1",
                "commander",
                "R. Ness",
                "anything-wrong",
                "nothing"));
    page.evaluate(
        "entry => new Promise(done => { const open = indexedDB.open('trestle-outbox', 1);"
            + " open.onsuccess = () => { const all = open.result.transaction('entries',"
            + " 'readwrite'); all.objectStore('entries').put(entry); all.oncomplete = () => {"
            + " open.result.close(); done(); }; }; })",
        entry);
    page.navigate(base + "/outbox");
    assertThat(page.locator("#outbox li")).containsText("Received as No. ");
    assertThat(page.locator("#outbox-send")).isHidden();
    assertThat(filed()).isEqualTo(1);
  }

  @Test
  void withoutScriptTheFormWorksAsAnyOther() {
    Page page = browser.withoutScript(Browser.PHONE);
    Browser.signIn(page, base, "pilot@" + company.name(), Company.PASSWORD);
    page.navigate(base + formPath());
    report(page, "09:00", "10:00");
    assertThat(page.locator("h1")).containsText("Received as No. ");
    assertThat(filed()).isEqualTo(1);
  }

  private BrowserContext phone() {
    BrowserContext context = browser.context(Browser.options(Browser.PHONE));
    context.setDefaultTimeout(PATIENCE_MS);
    return context;
  }

  /** Signed in, the worker running, and the form in the phone's keeping where it may be. */
  private Page opened(BrowserContext context, Role role) {
    Page page = context.newPage();
    Browser.signIn(page, base, role.word() + "@" + company.name(), Company.PASSWORD);
    Kept.waitFor(page, formPath());
    return page;
  }

  private String formPath() {
    return "/aircraft/" + aircraft + "/reports/new";
  }

  /** Opens it: its own style is allowed by a policy that allows no other, kept or fresh. */
  private void form(Page page) {
    String policy = page.navigate(base + formPath()).allHeaders().get("content-security-policy");
    assertThat(policy)
        .contains("style-src 'self' 'sha256-")
        .containsOnlyOnce("default-src")
        .doesNotContain("unsafe");
    assertThat(page.locator("form[data-ready]")).isVisible();
    assertThat(page.locator("#date")).hasCSS("min-height", "44px");
  }

  private static void report(Page page, String takeOff, String landing) {
    fillIn(page, takeOff, landing);
    page.check("[name=anything-wrong][value=nothing]");
    Locator file = page.locator("text=File this report");
    file.click();
  }

  private static void fillIn(Page page, String takeOff, String landing) {
    page.fill("#date", "10 Mar 2025");
    page.fill("#from", "Port Maddern");
    page.fill("#to", "Skell Island");
    page.fill("#take-off", takeOff);
    page.fill("#landing", landing);
  }

  private static void refuseReports(BrowserContext context) {
    context.route("**/reports", Route::abort);
  }

  private static byte[] jpeg() throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    ImageIO.write(new BufferedImage(64, 48, BufferedImage.TYPE_INT_RGB), "jpg", bytes);
    return bytes.toByteArray();
  }

  private long filed() {
    return flights.page(company.viewer(Role.PILOT), aircraft, View.EVERYTHING, 1).flights();
  }
}
