package trestle.server;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The packaged application in a process of its own, as a user starts it, on a port that was free.
 * Settings are given as environment variables; those of the test run are not handed on.
 */
public final class AppProcess implements AutoCloseable {
  private static final Path PACKAGED = Path.of("target", "quarkus-app").toAbsolutePath();
  private static final Pattern READY = Pattern.compile("Trestle is ready: (http://\\S+)/ .*");
  private static final List<String> QUICK_TO_START =
      List.of(
          "-Xmx384m",
          "-XX:+UseSerialGC",
          "-XX:TieredStopAtLevel=1",
          "-XX:SharedArchiveFile=" + Path.of("target", "trestle.jsa").toAbsolutePath());
  private static final long PATIENCE_SECONDS = 180;

  private final Process process;
  private final StringBuffer output = new StringBuffer();
  private final CompletableFuture<String> url = new CompletableFuture<>();
  private final Thread reader;

  private AppProcess(Process process) {
    this.process = process;
    this.reader = new Thread(this::read, "output of " + process.pid());
    reader.start();
  }

  /** On the built-in database in this directory, without the demo. */
  public static Builder on(Path dataDirectory) {
    return new Builder()
        .with("TRESTLE_DATA_DIR", dataDirectory.toString())
        .with("TRESTLE_DEMO", "false");
  }

  /** How to start it. */
  public static final class Builder {
    private final Map<String, String> environment = new HashMap<>();
    private final List<String> prefix = new ArrayList<>();
    private List<String> javaOptions = QUICK_TO_START;
    private final List<String> arguments = new ArrayList<>();
    private Path application = PACKAGED;

    public Builder with(String variable, String value) {
      environment.put(variable, value);
      return this;
    }

    public Builder with(Map<String, String> variables) {
      environment.putAll(variables);
      return this;
    }

    public Builder arguments(String... words) {
      arguments.addAll(List.of(words));
      return this;
    }

    /** Others than those that start quickly. */
    public Builder javaOptions(String... options) {
      javaOptions = List.of(options);
      return this;
    }

    /** With the options that README names, instead of those that start quickly. */
    public Builder asReadmeSays() {
      javaOptions = List.of("@" + Path.of("target", "java.options").toAbsolutePath());
      return this;
    }

    /** Through another program, such as setpriv; the application may lie elsewhere for it. */
    public Builder through(List<String> command, Path applicationDirectory) {
      prefix.addAll(command);
      application = applicationDirectory;
      // The archive of classes holds for the program where the build put it.
      javaOptions =
          javaOptions.stream()
              .filter(option -> !option.startsWith("-XX:SharedArchiveFile="))
              .toList();
      return this;
    }

    public AppProcess start() {
      List<String> command = new ArrayList<>(prefix);
      command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
      command.addAll(javaOptions);
      command.addAll(List.of("-jar", application.resolve("quarkus-run.jar").toString()));
      command.addAll(arguments);
      ProcessBuilder builder = new ProcessBuilder(command).redirectErrorStream(true);
      builder
          .environment()
          .keySet()
          .removeIf(name -> name.startsWith("TRESTLE_") || name.startsWith("QUARKUS_"));
      builder.environment().put("QUARKUS_HTTP_PORT", "0");
      builder.environment().putAll(environment);
      builder.directory(Path.of("/").toFile());
      try {
        return new AppProcess(builder.start());
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  static Path packaged() {
    if (!Files.exists(PACKAGED.resolve("quarkus-run.jar"))) {
      throw new AssertionError("Not packaged: run mvn verify, or mvn package first.");
    }
    return PACKAGED;
  }

  /** Waits for the line that says where it listens; fails with its output if it ends instead. */
  public AppProcess ready() {
    try {
      url.get(PATIENCE_SECONDS, TimeUnit.SECONDS);
      return this;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    } catch (ExecutionException | TimeoutException e) {
      throw new AssertionError("The application is not ready. It said:\n" + output, e);
    }
  }

  /** Waits until it has printed these words; fails with its output if it ends before. */
  public AppProcess said(String words) {
    synchronized (output) {
      try {
        for (long left = PATIENCE_SECONDS; output.indexOf(words) < 0; left--) {
          if (left == 0 || !reader.isAlive()) {
            throw new AssertionError("It never said \"" + words + "\", but:\n" + output);
          }
          output.wait(1_000);
        }
        return this;
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        throw new IllegalStateException(e);
      }
    }
  }

  /** Where it answers, without a slash at the end. */
  public String url() {
    ready();
    return url.getNow("");
  }

  public int statusOf(String path) {
    try {
      HttpRequest request = HttpRequest.newBuilder(URI.create(url() + path)).build();
      return HttpClient.newHttpClient()
          .send(request, HttpResponse.BodyHandlers.discarding())
          .statusCode();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  /** Everything it printed so far. */
  public String output() {
    return output.toString();
  }

  public ProcessHandle handle() {
    return process.toHandle();
  }

  /** As a power cut would: no hook runs, whatever it started lives on. */
  public void kill() {
    process.destroyForcibly();
    exitCode();
  }

  /** As Ctrl-C or a service manager would; waits until it is gone. */
  public void stop() {
    process.destroy();
    exitCode();
  }

  /** Waits for the end and for the last of its output. */
  public int exitCode() {
    try {
      if (!process.waitFor(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
        throw new AssertionError("The application does not end. It said:\n" + output);
      }
      reader.join();
      return process.exitValue();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  @Override
  public void close() {
    if (process.isAlive()) {
      stop();
    }
  }

  private void read() {
    try (BufferedReader lines = process.inputReader()) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        synchronized (output) {
          output.append(line).append('\n');
          output.notifyAll();
        }
        Matcher ready = READY.matcher(line);
        if (ready.matches()) {
          url.complete(ready.group(1));
        }
      }
    } catch (IOException e) {
      output.append(e).append('\n');
    }
    url.completeExceptionally(new IllegalStateException("ended"));
  }
}
