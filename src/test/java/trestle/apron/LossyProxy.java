package trestle.apron;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import com.sun.net.httpserver.HttpsConfigurator;
import com.sun.net.httpserver.HttpsServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.util.Locale;
import java.util.Random;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import javax.net.ssl.SSLContext;

/**
 * A bad link between a phone and the server: it loses requests, loses answers, delivers twice, and
 * lets later requests overtake earlier ones. Its dice are seeded. With a certificate it is also the
 * proxy that speaks TLS to the phone.
 */
final class LossyProxy implements AutoCloseable {
  private static final Set<String> OF_THE_HOP =
      Set.of("connection", "content-length", "expect", "host", "upgrade", "transfer-encoding");

  /** Nobody is overtaken for longer: the one behind may never come. */
  private static final long PATIENCE_MS = 100;

  private final HttpServer server;
  private final String upstream;
  private final Chances chances;
  private final Predicate<URI> suffers;
  private final Random dice;
  private final boolean secure;
  private final ExecutorService threads = Executors.newCachedThreadPool();
  private final HttpClient client =
      HttpClient.newBuilder().followRedirects(HttpClient.Redirect.NEVER).executor(threads).build();
  private final ConcurrentLinkedQueue<CountDownLatch> held = new ConcurrentLinkedQueue<>();
  private final AtomicInteger lost = new AtomicInteger();
  private final AtomicInteger unheard = new AtomicInteger();
  private final AtomicInteger twice = new AtomicInteger();
  private final AtomicInteger overtaken = new AtomicInteger();

  /** Of each thing that may happen to a request, 0 to 1; they exclude each other. */
  record Chances(double requestLost, double answerLost, double twice, double overtaken) {
    static final Chances NONE = new Chances(0, 0, 0, 0);
  }

  /** What happened so far. */
  record Toll(int requestsLost, int answersLost, int twice, int overtaken) {}

  private LossyProxy(
      String upstream, Chances chances, Predicate<URI> suffers, long seed, SSLContext tls) {
    this.upstream = upstream;
    this.chances = chances;
    this.suffers = suffers;
    this.dice = new Random(seed);
    this.secure = tls != null;
    try {
      InetSocketAddress any = new InetSocketAddress("127.0.0.1", 0);
      if (secure) {
        HttpsServer https = HttpsServer.create(any, 0);
        https.setHttpsConfigurator(new HttpsConfigurator(tls));
        server = https;
      } else {
        server = HttpServer.create(any, 0);
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    server.setExecutor(threads);
    server.createContext("/", this::handle);
    server.start();
  }

  /**
   * @param upstream like http://127.0.0.1:8080
   * @param suffers which requests the chances concern; all others pass unharmed
   */
  static LossyProxy to(String upstream, Chances chances, Predicate<URI> suffers, long seed) {
    return new LossyProxy(upstream, chances, suffers, seed, null);
  }

  /** A good link that speaks TLS to the phone. */
  static LossyProxy secure(String upstream, SSLContext tls) {
    return new LossyProxy(upstream, Chances.NONE, any -> false, 0, tls);
  }

  int port() {
    return server.getAddress().getPort();
  }

  Toll toll() {
    return new Toll(lost.get(), unheard.get(), twice.get(), overtaken.get());
  }

  @Override
  public void close() {
    server.stop(0);
    threads.shutdownNow();
  }

  private void handle(HttpExchange phone) throws IOException {
    try (phone) {
      byte[] body = phone.getRequestBody().readAllBytes();
      double fate = suffers.test(phone.getRequestURI()) ? roll() : 1;
      if ((fate -= chances.requestLost()) < 0) {
        lost.incrementAndGet();
        return;
      }
      if ((fate -= chances.answerLost()) < 0) {
        unheard.incrementAndGet();
        forward(phone, body);
        return;
      }
      if ((fate -= chances.twice()) < 0) {
        twice.incrementAndGet();
        HttpRequest again = request(phone, body);
        threads.execute(() -> straggle(again));
      } else if ((fate -= chances.overtaken()) < 0) {
        overtaken.incrementAndGet();
        waitToBeOvertaken();
      }
      answer(phone, forward(phone, body));
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      letPass();
    }
  }

  private synchronized double roll() {
    return dice.nextDouble();
  }

  /** The same once more, behind others: its answer reaches nobody. */
  private void straggle(HttpRequest again) {
    try {
      waitToBeOvertaken();
      client.send(again, BodyHandlers.discarding());
    } catch (IOException e) {
      // Nobody waits for it.
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }

  private void waitToBeOvertaken() throws InterruptedException {
    CountDownLatch latch = new CountDownLatch(1);
    held.add(latch);
    latch.await(PATIENCE_MS, TimeUnit.MILLISECONDS);
  }

  private void letPass() {
    CountDownLatch first = held.poll();
    if (first != null) {
      first.countDown();
    }
  }

  private HttpResponse<byte[]> forward(HttpExchange phone, byte[] body)
      throws IOException, InterruptedException {
    return client.send(request(phone, body), BodyHandlers.ofByteArray());
  }

  private HttpRequest request(HttpExchange phone, byte[] body) {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(upstream + phone.getRequestURI()))
            .method(phone.getRequestMethod(), BodyPublishers.ofByteArray(body));
    phone
        .getRequestHeaders()
        .forEach(
            (name, values) -> {
              if (!OF_THE_HOP.contains(name.toLowerCase(Locale.ROOT))) {
                values.forEach(value -> request.header(name, value));
              }
            });
    request.header("X-Forwarded-Proto", secure ? "https" : "http");
    return request.build();
  }

  private void answer(HttpExchange phone, HttpResponse<byte[]> answer) throws IOException {
    String self = (secure ? "https://" : "http://") + phone.getRequestHeaders().getFirst("Host");
    // Where it says that the phone speaks TLS, the server leaves its own port out.
    UnaryOperator<String> own =
        value -> value.replaceFirst("^https?://127\\.0\\.0\\.1(:\\d+)?(?=/|$)", self);
    answer
        .headers()
        .map()
        .forEach(
            (name, values) -> {
              if (!name.startsWith(":") && !OF_THE_HOP.contains(name.toLowerCase(Locale.ROOT))) {
                phone.getResponseHeaders().put(name, values.stream().map(own).toList());
              }
            });
    byte[] body = answer.body();
    phone.sendResponseHeaders(answer.statusCode(), body.length == 0 ? -1 : body.length);
    phone.getResponseBody().write(body);
  }
}
