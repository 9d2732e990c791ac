package trestle.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.ZoneId;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Days are the operator's, times may be UTC: late in an evening west of Greenwich they differ. */
class StatedMomentTest {
  private static final Instant LATE = Instant.parse("2026-03-11T01:30:00Z");
  private static final Viewer UTC = viewer(true);
  private static final Viewer LOCAL = viewer(false);

  @Test
  void aTimeInUtcMayBeOfADayThatHasNotBegunHere() {
    assertThat(stated(UTC, "2026-03-11", "01:10")).isEqualTo("2026-03-11T01:10:00Z");
    assertThat(stated(UTC, "2026-03-10", "22:00")).isEqualTo("2026-03-10T22:00:00Z");
    assertThat(stated(LOCAL, "2026-03-10", "22:20")).isEqualTo("2026-03-11T00:50:00Z");
  }

  @Test
  void whatIsYetToComeIsRefused() {
    assertThat(refused(UTC, "2026-03-11", "01:40")).isEqualTo("time");
    assertThat(refused(UTC, "2026-03-12", "00:10")).isEqualTo("on");
    assertThat(refused(LOCAL, "2026-03-11", "00:10")).isEqualTo("on");
  }

  @Test
  void aDayAloneIsItsEndOrNow() {
    assertThat(stated(UTC, "2026-03-09", "")).isEqualTo("2026-03-10T02:29:59Z");
    assertThat(stated(UTC, "2026-03-10", "")).isEqualTo("2026-03-11T01:30:00Z");
  }

  private static String stated(Viewer viewer, String on, String time) {
    Form form = Form.blank().with("on", on).with("time", time);
    Instant at = StatedMoment.of(form, "Done on", viewer, LATE);
    assertThat(form.errors()).isEmpty();
    return at.toString();
  }

  private static String refused(Viewer viewer, String on, String time) {
    Form form = Form.blank().with("on", on).with("time", time);
    assertThat(StatedMoment.of(form, "Done on", viewer, LATE)).isNull();
    return form.errors().get(0).field();
  }

  private static Viewer viewer(boolean timesInUtc) {
    return new Viewer(
        null, "", false, null, null, ZoneId.of("America/St_Johns"), timesInUtc, Set.of());
  }
}
