package trestle.server;

import java.io.IOException;
import java.io.PrintStream;
import java.net.HttpURLConnection;
import java.net.URI;
import java.util.List;

/**
 * A start for nobody: the first pages are opened, then the program ends. The build rehearses once,
 * so that the Java machine can keep the classes that a start loads in an archive, from which every
 * later start takes them ready-made.
 */
final class Rehearsal {
  private static final List<String> PAGES = List.of("/q/health/ready", "/", "/sign-in");

  private Rehearsal() {}

  /**
   * @return 0 when every page came
   */
  static int on(String address, PrintStream out) {
    for (String page : PAGES) {
      try {
        HttpURLConnection asked =
            (HttpURLConnection) URI.create(address + page).toURL().openConnection();
        asked.setInstanceFollowRedirects(true);
        if (asked.getResponseCode() != HttpURLConnection.HTTP_OK) {
          out.println("The rehearsal got " + asked.getResponseCode() + " for " + page);
          return 1;
        }
        asked.getInputStream().readAllBytes();
      } catch (IOException failed) {
        out.println("The rehearsal could not open " + page + ": " + failed.getMessage());
        return 1;
      }
    }
    return 0;
  }
}
