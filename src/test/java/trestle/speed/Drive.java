package trestle.speed;

import java.io.IOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** Somebody signed in at the program who asks for pages, at a rate or as fast as they come. */
public final class Drive {
  private static final Pattern TOKEN = Pattern.compile("name=\"csrf-token\" value=\"([^\"]+)\"");

  private final HttpClient client =
      HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
  private final String url;
  private String cookies = "";
  private volatile String whatFailed;

  private Drive(String url) {
    this.url = url;
  }

  public static Drive signedIn(String url, String name, String password)
      throws IOException, InterruptedException {
    Drive drive = new Drive(url);
    HttpResponse<String> form = drive.send(drive.request("/sign-in").build());
    Matcher token = TOKEN.matcher(form.body());
    if (!token.find()) {
      throw new IllegalStateException("No form to sign in with: " + form.body());
    }
    String typed =
        "csrf-token=%s&name=%s&password=%s"
            .formatted(encoded(token.group(1)), encoded(name), encoded(password));
    HttpResponse<String> answer =
        drive.send(
            drive
                .request("/sign-in")
                .header("Content-Type", "application/x-www-form-urlencoded")
                .POST(HttpRequest.BodyPublishers.ofString(typed))
                .build());
    if (answer.statusCode() != 303) {
      throw new IllegalStateException("Not signed in: " + answer.statusCode());
    }
    return drive;
  }

  /** Milliseconds of each answer, sorted. */
  record Times(double[] sorted) {
    double percentile(double percent) {
      int at = (int) Math.ceil(sorted.length * percent / 100) - 1;
      return sorted[Math.max(0, at)];
    }

    @Override
    public String toString() {
      return "p50 %.1f ms, p95 %.1f ms, p99 %.1f ms, longest %.1f ms (%d pages)"
          .formatted(
              percentile(50),
              percentile(95),
              percentile(99),
              sorted[sorted.length - 1],
              sorted.length);
    }
  }

  /**
   * Asks at a constant rate whether or not earlier pages have come, and takes the time from when
   * each was meant to be asked for: a stall is counted on every page that it holds up.
   */
  Times atRate(List<String> paths, int perSecond, Duration duration) throws InterruptedException {
    int count = (int) (perSecond * duration.toSeconds());
    double[] milliseconds = new double[count];
    CountDownLatch left = new CountDownLatch(count);
    AtomicInteger failed = new AtomicInteger();
    long begin = System.nanoTime() + 10_000_000;
    for (int i = 0; i < count; i++) {
      long meant = begin + 1_000_000_000L * i / perSecond;
      for (long wait = meant - System.nanoTime(); wait > 0; wait = meant - System.nanoTime()) {
        LockSupport.parkNanos(wait);
      }
      int place = i;
      client
          .sendAsync(page(paths.get(i % paths.size())), HttpResponse.BodyHandlers.ofByteArray())
          .whenComplete(
              (answer, failure) -> {
                milliseconds[place] = (System.nanoTime() - meant) / 1e6;
                if (failure != null || answer.statusCode() != 200) {
                  failed.incrementAndGet();
                  whatFailed = failure == null ? "status " + answer.statusCode() : "" + failure;
                }
                left.countDown();
              });
    }
    left.await();
    if (failed.get() > 0) {
      throw new IllegalStateException(
          failed + " of " + count + " pages failed, the last by " + whatFailed);
    }
    Arrays.sort(milliseconds);
    return new Times(milliseconds);
  }

  /** Pages a second when so many are always asked for at once. */
  double saturated(String path, int status, int atOnce, Duration duration)
      throws InterruptedException {
    AtomicInteger answered = new AtomicInteger();
    AtomicInteger failed = new AtomicInteger();
    long begin = System.nanoTime();
    List<Thread> askers = new ArrayList<>();
    for (int i = 0; i < atOnce; i++) {
      Thread asker =
          new Thread(
              () -> {
                try (Line line = new Line(URI.create(url + path), cookies)) {
                  while (System.nanoTime() - begin < duration.toNanos()) {
                    (line.ask() == status ? answered : failed).incrementAndGet();
                  }
                } catch (IOException e) {
                  whatFailed = e.toString();
                  failed.incrementAndGet();
                }
              });
      asker.start();
      askers.add(asker);
    }
    for (Thread asker : askers) {
      asker.join();
    }
    double seconds = (System.nanoTime() - begin) / 1e9;
    if (failed.get() > 0) {
      throw new IllegalStateException(failed + " pages failed, the last by " + whatFailed);
    }
    return answered.get() / seconds;
  }

  /** The bytes of a page as sent, compressed. */
  int bytes(String path) throws IOException, InterruptedException {
    return client.send(page(path), HttpResponse.BodyHandlers.ofByteArray()).body().length;
  }

  /** A page's text; fails where there is none. */
  public String text(String path) throws IOException, InterruptedException {
    HttpResponse<String> answer =
        client.send(request(path).build(), HttpResponse.BodyHandlers.ofString());
    if (answer.statusCode() != 200) {
      throw new IllegalStateException(path + " answers " + answer.statusCode());
    }
    return answer.body();
  }

  private HttpRequest page(String path) {
    return request(path).header("Accept-Encoding", "gzip").build();
  }

  private HttpRequest.Builder request(String path) {
    HttpRequest.Builder request = HttpRequest.newBuilder(URI.create(url + path));
    return cookies.isEmpty() ? request : request.header("Cookie", cookies);
  }

  private HttpResponse<String> send(HttpRequest request) throws IOException, InterruptedException {
    HttpResponse<String> answer = client.send(request, HttpResponse.BodyHandlers.ofString());
    for (String cookie : answer.headers().allValues("set-cookie")) {
      String pair = cookie.substring(0, cookie.indexOf(';'));
      cookies = cookies.isEmpty() ? pair : cookies + "; " + pair;
    }
    return answer;
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }
}
