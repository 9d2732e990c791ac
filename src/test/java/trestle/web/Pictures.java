package trestle.web;

import com.microsoft.playwright.Page;
import com.microsoft.playwright.PlaywrightException;
import com.microsoft.playwright.options.ColorScheme;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;

/**
 * Takes pictures of pages, each at phone and desk width, light and dark, for people to look at:
 * {@code .ci/pictures http://localhost:8080 target/pictures NAME PASSWORD /fleet}, with "-" for the
 * name and the password where nobody signs in.
 */
public final class Pictures {

  public static void main(String... arguments) {
    if (arguments.length < 5) {
      System.err.println("Pictures <base url> <directory> <name or -> <password or -> <path>...");
      System.exit(2);
    }
    List<String> paths = Arrays.asList(arguments).subList(4, arguments.length);
    int exitCode = 1;
    try {
      takeAll(arguments, paths);
      exitCode = 0;
    } catch (PlaywrightException e) {
      System.err.println(e.getMessage());
    } finally {
      // The browser's threads would keep the program alive, also when a page can't be reached.
      Runtime.getRuntime().halt(exitCode);
    }
  }

  private static void takeAll(String[] arguments, List<String> paths) {
    for (int width : new int[] {Browser.PHONE, Browser.DESK}) {
      for (ColorScheme scheme : new ColorScheme[] {ColorScheme.LIGHT, ColorScheme.DARK}) {
        take(arguments, paths, width, scheme);
      }
    }
  }

  private static void take(String[] arguments, List<String> paths, int width, ColorScheme scheme) {
    Browser browser = new Browser();
    Page page = browser.page(width, scheme);
    if (!arguments[2].equals("-")) {
      Browser.signIn(page, arguments[0], arguments[2], arguments[3]);
    }
    for (String path : paths) {
      page.navigate(arguments[0] + path);
      Path file = Path.of(arguments[1], fileName(path, width, scheme));
      page.screenshot(new Page.ScreenshotOptions().setPath(file).setFullPage(true));
      System.out.println(file);
    }
    browser.closeContexts();
  }

  private static String fileName(String path, int width, ColorScheme scheme) {
    String name = path.replaceAll("[^A-Za-z0-9]+", "-").replaceAll("^-|-$", "");
    String shown = scheme == ColorScheme.DARK ? "dark" : "light";
    return (name.isEmpty() ? "start" : name) + "-" + width + "-" + shown + ".png";
  }

  private Pictures() {}
}
