package trestle.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import org.junit.jupiter.api.Test;

/** When a ledger is verified by itself: in the operator's night, or where that was missed. */
class NightlyTest {
  /** Three and a half hours behind UTC in winter. */
  private static final ZoneId ZONE = ZoneId.of("America/St_Johns");

  @Test
  void aLedgerIsVerifiedOnceANightByTheOperatorsClock() {
    assertThat(isDue("2026-01-10T05:00:00Z", "2026-01-11T04:00:00Z")).isFalse(); // 00:30
    assertThat(isDue("2026-01-10T05:00:00Z", "2026-01-11T04:30:00Z")).isTrue(); // 01:00
    assertThat(isDue("2026-01-11T04:30:00Z", "2026-01-11T05:00:00Z")).isFalse();
    assertThat(isDue("2026-01-10T12:00:00Z", "2026-01-11T08:29:00Z")).isTrue(); // 04:59
    assertThat(isDue("2026-01-10T12:00:00Z", "2026-01-11T08:30:00Z")).isFalse(); // 05:00
  }

  @Test
  void whereTheNightWasMissedItIsDoneByDay() {
    assertThat(isDue("2026-01-10T05:00:00Z", "2026-01-11T17:00:00Z")).isFalse();
    assertThat(isDue("2026-01-10T05:00:00Z", "2026-01-11T17:00:01Z")).isTrue();
    assertThat(Nightly.isDue(List.of(), Instant.parse("2026-01-11T15:00:00Z"), ZONE)).isTrue();
  }

  @Test
  void aClockThatOnceWasAheadDoesNotEndThem() {
    assertThat(isDue("2031-01-10T05:00:00Z", "2026-01-11T15:00:00Z")).isTrue();
    List<VerifiedLine> both = List.of(line("2031-01-10T05:00:00Z"), line("2026-01-11T14:30:00Z"));
    assertThat(Nightly.isDue(both, Instant.parse("2026-01-11T15:00:00Z"), ZONE)).isFalse();
  }

  private static boolean isDue(String last, String now) {
    return Nightly.isDue(List.of(line(last)), Instant.parse(now), ZONE);
  }

  private static VerifiedLine line(String at) {
    return new VerifiedLine(Instant.parse(at), 1, "", null, null, true);
  }
}
