package trestle.apron;

import java.io.IOException;
import java.net.CookieManager;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/** Sends reports as the outbox does: again and again, until it holds an acknowledgement. */
public final class Phone {
  private static final Pattern TOKEN = Pattern.compile("name=\"csrf-token\" value=\"([^\"]+)\"");
  private static final Pattern SENDERS = Pattern.compile("\"token\":\"([^\"]+)\"");
  private static final Pattern RECEIVED = Pattern.compile("\"receivedAs\":(\\d+)");
  private static final int MOST_TRIES = 200;
  private static final Duration PAUSE = Duration.ofMillis(100);

  private final HttpClient client =
      HttpClient.newBuilder()
          .cookieHandler(new CookieManager())
          .version(HttpClient.Version.HTTP_1_1)
          .connectTimeout(Duration.ofSeconds(10))
          .build();
  private final String base;
  private final String token;

  /** Signs in. */
  public Phone(String base, String name, String password) throws IOException, InterruptedException {
    this.base = base;
    String page = send(request("/sign-in").GET().build()).body();
    Map<String, String> form =
        Map.of("csrf-token", found(TOKEN, page), "name", name, "password", password);
    send(post("/sign-in", form).build());
    this.token = found(SENDERS, send(request("/outbox/sender").GET().build()).body());
  }

  /** Sends until the server says under which number it has the report; that number. */
  public long sent(String path, Map<String, String> report)
      throws IOException, InterruptedException {
    Map<String, String> form = new LinkedHashMap<>(report);
    form.put("csrf-token", token);
    HttpRequest request = post(path, form).header("Accept", "application/json").build();
    for (int tries = 0; tries < MOST_TRIES; tries++) {
      HttpResponse<String> answer;
      try {
        answer = send(request);
      } catch (IOException e) {
        continue;
      }
      Matcher received = RECEIVED.matcher(answer.body());
      if (answer.statusCode() == 200 && received.find()) {
        return Long.parseLong(received.group(1));
      }
      throw new AssertionError(answer.statusCode() + ": " + answer.body());
    }
    throw new AssertionError("No acknowledgement in " + MOST_TRIES + " tries.");
  }

  /**
   * As {@link #sent}, by a server that may be gone for a while: like the outbox it tries again
   * after a pause, also when the answer is that there is none now.
   */
  public long sentWithin(Duration patience, String path, Map<String, String> report)
      throws InterruptedException {
    Map<String, String> form = new LinkedHashMap<>(report);
    form.put("csrf-token", token);
    HttpRequest request = post(path, form).header("Accept", "application/json").build();
    long latest = System.nanoTime() + patience.toNanos();
    String last = "";
    while (System.nanoTime() < latest) {
      try {
        HttpResponse<String> answer = send(request);
        Matcher received = RECEIVED.matcher(answer.body());
        if (answer.statusCode() == 200 && received.find()) {
          return Long.parseLong(received.group(1));
        }
        last = answer.statusCode() + ": " + answer.body();
        if (answer.statusCode() < 500) {
          throw new AssertionError(last);
        }
      } catch (IOException e) {
        last = e.toString();
      }
      LockSupport.parkNanos(PAUSE.toNanos());
    }
    throw new AssertionError("No acknowledgement in " + patience + "; the last answer: " + last);
  }

  private HttpRequest.Builder post(String path, Map<String, String> form) {
    String body =
        form.entrySet().stream()
            .map(field -> encoded(field.getKey()) + "=" + encoded(field.getValue()))
            .collect(Collectors.joining("&"));
    return request(path)
        .header("Content-Type", "application/x-www-form-urlencoded")
        .POST(BodyPublishers.ofString(body));
  }

  private HttpRequest.Builder request(String path) {
    return HttpRequest.newBuilder(URI.create(base + path)).timeout(Duration.ofSeconds(60));
  }

  private HttpResponse<String> send(HttpRequest request) throws IOException, InterruptedException {
    return client.send(request, BodyHandlers.ofString());
  }

  private static String encoded(String text) {
    return URLEncoder.encode(text, StandardCharsets.UTF_8);
  }

  private static String found(Pattern pattern, String text) {
    Matcher found = pattern.matcher(text);
    if (!found.find()) {
      throw new AssertionError(text);
    }
    return found.group(1);
  }
}
