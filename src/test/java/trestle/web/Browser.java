package trestle.web;

import com.microsoft.playwright.BrowserContext;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.extension.AfterEachCallback;
import org.junit.jupiter.api.extension.BeforeEachCallback;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.opentest4j.TestAbortedException;

/**
 * A real browser for tests: {@code @RegisterExtension static final Browser browser = new
 * Browser();}. One Chromium a JVM; each page has a fresh context of its own (no cookies, no cache),
 * closed after the test. Without a Chromium the tests are skipped and say so, unless
 * REQUIRE_BROWSER=true, when they fail.
 */
public final class Browser implements BeforeEachCallback, AfterEachCallback {
  public static final int PHONE = 360;
  public static final int DESK = 1280;

  private static final int PHONE_HEIGHT = 780;
  private static final int DESK_HEIGHT = 900;
  private static final List<String> FLAGS =
      List.of(
          "--no-sandbox",
          "--disable-gpu",
          "--disable-quic",
          "--no-first-run",
          "--disable-background-networking",
          "--disable-component-update",
          "--disable-sync",
          "--disable-dev-shm-usage");

  private static final Driven SHARED = new Driven();

  private final Driven driven;
  private final List<BrowserContext> opened = new ArrayList<>();

  public Browser() {
    this(SHARED);
  }

  private Browser(Driven driven) {
    this.driven = driven;
  }

  /** A Chromium beside the others' one, for a second thread: one may not be driven by two. */
  public static Browser ofItsOwn() {
    return new Browser(new Driven());
  }

  /** Where a Chromium is on this machine: CHROMIUM, or one of the usual places. */
  static Optional<Path> installed() {
    return List.of(
            Optional.ofNullable(System.getenv("CHROMIUM")).orElse("/usr/bin/chromium"),
            "/usr/bin/chromium",
            "/usr/bin/chromium-browser",
            "/usr/bin/google-chrome",
            "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome")
        .stream()
        .map(Path::of)
        .filter(Files::isExecutable)
        .findFirst();
  }

  @Override
  public void beforeEach(ExtensionContext test) {
    if (installed().isEmpty()) {
      String sentence = "No Chromium on this machine (Debian: apt-get install chromium).";
      if ("true".equals(System.getenv("REQUIRE_BROWSER"))) {
        throw new AssertionError(sentence + " REQUIRE_BROWSER=true asks for one.");
      }
      System.out.println("Skipped: " + test.getDisplayName() + ". " + sentence);
      throw new TestAbortedException(sentence);
    }
  }

  @Override
  public void afterEach(ExtensionContext test) {
    closeContexts();
  }

  /** A page of a phone's width. */
  public Page phone() {
    return page(PHONE, ColorScheme.LIGHT);
  }

  /** A page of a desk screen's width. */
  public Page desk() {
    return page(DESK, ColorScheme.LIGHT);
  }

  public Page page(int width, ColorScheme scheme) {
    return context(options(width).setColorScheme(scheme)).newPage();
  }

  /** A page on which no script runs. */
  public Page withoutScript(int width) {
    return context(options(width).setJavaScriptEnabled(false)).newPage();
  }

  /** A context of one's own making, for what the others don't offer (offline, zones, languages). */
  public BrowserContext context(com.microsoft.playwright.Browser.NewContextOptions options) {
    BrowserContext context = driven.chromium().newContext(options);
    opened.add(context);
    return context;
  }

  /** A phone's browser that keeps what it is given in a directory, as one does between openings. */
  public BrowserContext keeping(Path profile, String... moreFlags) {
    driven.chromium();
    List<String> flags = new ArrayList<>(FLAGS);
    flags.addAll(List.of(moreFlags));
    return driven
        .playwright
        .chromium()
        .launchPersistentContext(
            profile,
            new BrowserType.LaunchPersistentContextOptions()
                .setExecutablePath(installed().orElseThrow())
                .setHeadless(true)
                .setArgs(flags)
                .setViewportSize(PHONE, PHONE_HEIGHT)
                .setIsMobile(true)
                .setHasTouch(true)
                .setLocale("en-GB"));
  }

  public static com.microsoft.playwright.Browser.NewContextOptions options(int width) {
    return new com.microsoft.playwright.Browser.NewContextOptions()
        .setViewportSize(width, width < DESK ? PHONE_HEIGHT : DESK_HEIGHT)
        .setIsMobile(width < DESK)
        .setHasTouch(width < DESK)
        .setLocale("en-GB");
  }

  /** Signs in through the form, as a person does. */
  public static void signIn(Page page, String baseUrl, String name, String password) {
    page.navigate(baseUrl + "/sign-in");
    page.fill("input[name=name]", name);
    page.fill("input[name=password]", password);
    page.click("main form button");
    page.waitForLoadState();
  }

  void closeContexts() {
    opened.forEach(BrowserContext::close);
    opened.clear();
  }

  /** What drives a Chromium, and that, started when first asked for. */
  private static final class Driven {
    private Playwright playwright;
    private com.microsoft.playwright.Browser chromium;

    synchronized com.microsoft.playwright.Browser chromium() {
      if (chromium == null) {
        playwright =
            Playwright.create(
                new Playwright.CreateOptions()
                    .setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
        chromium =
            playwright
                .chromium()
                .launch(
                    new BrowserType.LaunchOptions()
                        .setExecutablePath(installed().orElseThrow())
                        .setHeadless(true)
                        .setArgs(FLAGS));
      }
      return chromium;
    }
  }
}
