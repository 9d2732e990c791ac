package trestle.apron;

import com.microsoft.playwright.Page;

/** Waits until a phone can do without a signal. */
public final class Kept {
  private Kept() {}

  /** Until the service worker serves this page, and that path is in the phone's keeping. */
  public static void waitFor(Page page, String path) {
    page.waitForCondition(
        () ->
            (boolean)
                page.evaluate(
                    "async path => !!navigator.serviceWorker.controller"
                        + " && !!(await caches.match(path))",
                    path),
        new Page.WaitForConditionOptions().setTimeout(60_000));
  }
}
