package trestle.reckoning;

import java.time.LocalDate;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Threads;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.runner.Runner;
import org.openjdk.jmh.runner.RunnerException;
import org.openjdk.jmh.runner.options.OptionsBuilder;

/** Requirements reckoned a second on one core; the command is in docs/performance.md. */
@State(Scope.Thread)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Threads(1)
@Fork(2)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
public class ReckonerBenchmark {

  /** The last keeps schedules over windows, at numbers a million times as large. */
  @Param({"restart", "keep-schedule", "window", "far"})
  String kind;

  private Rule rule;
  private final History[] histories = new History[64];
  private final Situation[] situations = new Situation[64];
  private int next;

  public static void main(String[] arguments) throws RunnerException {
    new Runner(new OptionsBuilder().include(ReckonerBenchmark.class.getSimpleName()).build()).run();
  }

  /** Two limits and three doings each, over 64 different subjects. */
  @Setup
  public void prepare() {
    rule =
        Rule.first(
            limit(Limit.Every.of(Counter.HOURS, "100").soon("10").tolerance("10"), "5"),
            limit(Limit.Every.of(Interval.ofMonths(12)).toMonthEnd().soon("P30D"), "P30D"));
    long far = kind.equals("far") ? 9_000_000 : 0;
    LocalDate early = LocalDate.of(kind.equals("far") ? 1900 : 2023, 1, 31);
    for (int i = 0; i < histories.length; i++) {
      histories[i] =
          History.since(
              reading(early.plusDays(i), i),
              reading(LocalDate.of(2024, 1, 20).plusDays(i), far + 98 + i),
              reading(LocalDate.of(2025, 2, 10).plusDays(i), far + 206 + i),
              reading(LocalDate.of(2026, 2, 1).plusDays(i), far + 304 + i));
      situations[i] =
          new Situation(
              LocalDate.of(2026, 9, 1).plusDays(i),
              Usage.parse("hours=" + (far + 380 + i) + ".5 landings=2210"),
              Utilisation.of(Counter.HOURS, "0.8"));
    }
  }

  private Limit.Every limit(Limit.Every limit, String window) {
    return switch (kind) {
      case "keep-schedule" -> limit.keepSchedule();
      case "window" -> limit.window(window);
      case "far" -> limit.keepSchedule().window(window);
      default -> limit;
    };
  }

  private static Reading reading(LocalDate on, long hours) {
    return new Reading(on, Usage.parse("hours=" + hours + ".3 landings=" + hours % 1_000_000 * 2));
  }

  @Benchmark
  public Reckoning reckon() {
    next = next + 1 & 63;
    return Reckoner.reckon(rule, histories[next], situations[next]);
  }
}
