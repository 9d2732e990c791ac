package trestle.records.pack;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.lang.management.ManagementFactory;
import java.lang.management.MemoryPoolMXBean;
import java.lang.management.MemoryType;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * The record of an aircraft with ten years of flights: its pack made, looked into, and taken in at
 * another operator; how long, and how much of the heap at most.
 */
@QuarkusTest
class PackBenchmark {
  private static final int FLIGHTS = Integer.getInteger("trestle.flights", 3_000);

  @Inject RecordPacks packs;
  @Inject TakingIn takingIn;
  @Inject PackTotals totals;
  @Inject Hangar hangar;
  @Inject JourneyLog log;
  @Inject Operators operators;
  @Inject Members members;
  @Inject InstantSource clock;

  @Test
  void tenYearsChangeHands() throws Exception {
    Viewer there = company("pack-there").viewer(Role.OWNER);
    Viewer here = company("pack-here").viewer(Role.OWNER);
    Instant began = clock.instant().minus(Duration.ofDays(3_650));
    UUID aircraft = hangar.single(there, "QX-TEN", began);
    List<FlightDraft> flights = new ArrayList<>();
    for (int i = 0; i < FLIGHTS; i++) {
      Instant off = began.plus(Duration.ofHours(1 + 24L * 3_600 / FLIGHTS * i));
      flights.add(
          FlightDraft.of("Port Maddern", "Skerry", off, off.plusSeconds(4_000), 1, "I. T."));
    }
    timed("filed", () -> log.fileAll(there, aircraft, flights));
    PackSubject subject = PackSubject.aircraft(aircraft);
    Path file = timed("made", () -> packs.made(there, subject));
    UUID upload = timed("checked and kept", () -> takingIn.uploaded(here, file));
    TakingIn.Preview preview = timed("shown", () -> takingIn.preview(here, upload));
    timed("taken in", () -> takingIn.takeIn(here, upload));
    System.out.printf("%d lines, %d KB%n", preview.pack().lines(), Files.size(file) >> 10);
    Files.delete(file);
    assertThat(totals.of(here, subject, preview.pack().parts(), View.EVERYTHING))
        .isEqualTo(preview.pack().totals());
  }

  private Company company(String mark) {
    return Company.founded(mark + "-" + UUID.randomUUID(), operators, members);
  }

  private static <T> T timed(String what, Callable<T> work) throws Exception {
    System.gc();
    List<MemoryPoolMXBean> heap =
        ManagementFactory.getMemoryPoolMXBeans().stream()
            .filter(pool -> pool.getType() == MemoryType.HEAP)
            .toList();
    heap.forEach(MemoryPoolMXBean::resetPeakUsage);
    long used = heap.stream().mapToLong(pool -> pool.getUsage().getUsed()).sum();
    long before = System.nanoTime();
    T made = work.call();
    double seconds = (System.nanoTime() - before) / 1e9;
    long peak = heap.stream().mapToLong(pool -> pool.getPeakUsage().getUsed()).sum();
    System.out.printf(
        "%s: %.1f s, at most %d MB more of the heap%n", what, seconds, (peak - used) >> 20);
    return made;
  }
}
