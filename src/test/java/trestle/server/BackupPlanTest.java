package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** When a backup is due and which are kept, on days that summer time makes short or long too. */
class BackupPlanTest {
  private static final BackupPlan PLAN =
      BackupPlan.parse("02:30", "3 days, 2 months", ZoneId.of("Europe/Helsinki"));

  private static List<Path> made(String... moments) {
    List<Path> files = new ArrayList<>(List.of(Path.of("notes.txt"), Path.of("trestle-x.zip")));
    for (String moment : moments) {
      files.add(Path.of(BackupPlan.fileName(Instant.parse(moment))));
    }
    return files;
  }

  private static boolean dueAt(String now, String... made) {
    return PLAN.isDue(made(made), Instant.parse(now));
  }

  @Test
  void onceADayAndAfterwardsWhenTheMachineWasOff() {
    assertThat(dueAt("2026-11-25T00:29:59Z", "2026-11-24T00:30:05Z")).isFalse();
    assertThat(dueAt("2026-11-25T00:30:00Z", "2026-11-24T00:30:05Z")).isTrue();
    assertThat(dueAt("2026-11-25T00:31:00Z", "2026-11-25T00:30:05Z")).isFalse();
    assertThat(dueAt("2026-11-25T19:00:00Z", "2026-11-22T00:30:05Z")).isTrue();
    assertThat(dueAt("2026-11-25T19:00:00Z")).as("the first of all").isTrue();
  }

  /** 29 March 2026: 03:00 becomes 04:00 at 01:00 UTC; 02:30 is there, 03:30 is not. */
  @Test
  void summerTimeNeitherLeavesOneOutNorMakesTwo() {
    BackupPlan inTheGap =
        BackupPlan.parse("03:30", "3 days, 2 months", ZoneId.of("Europe/Helsinki"));
    List<Path> before = made("2026-03-28T01:30:02Z");
    assertThat(inTheGap.isDue(before, Instant.parse("2026-03-29T01:29:00Z"))).isFalse();
    assertThat(inTheGap.isDue(before, Instant.parse("2026-03-29T01:30:00Z"))).isTrue();
    List<Path> first = made("2026-10-25T00:30:02Z");
    assertThat(inTheGap.isDue(first, Instant.parse("2026-10-25T01:30:02Z")))
        .as("03:30 comes again when the clocks go back")
        .isFalse();
  }

  @Test
  void aClockSetBackAnHourMakesNoSecondOneAndAYearDoesNotEndThem() {
    assertThat(dueAt("2026-11-25T00:30:00Z", "2026-11-25T00:30:05Z")).isFalse();
    assertThat(dueAt("2026-11-24T23:45:00Z", "2026-11-25T00:30:05Z")).isFalse();
    assertThat(dueAt("2026-11-25T00:30:00Z", "2027-11-25T00:30:05Z")).isTrue();
  }

  @Test
  void theNewestOfEachDayAndMonthAreKeptAndForeignFilesAlways() {
    assertThat(
            PLAN.superfluous(
                made(
                    "2026-09-30T00:30:00Z",
                    "2026-10-02T00:30:00Z",
                    "2026-10-31T00:30:00Z",
                    "2026-11-22T00:30:00Z",
                    "2026-11-23T00:30:00Z",
                    "2026-11-24T00:30:00Z",
                    "2026-11-25T00:30:00Z",
                    "2026-11-25T09:00:00Z"),
                Instant.parse("2026-11-25T09:00:10Z")))
        .containsExactlyInAnyOrderElementsOf(
            made(
                    "2026-09-30T00:30:00Z",
                    "2026-10-02T00:30:00Z",
                    "2026-11-22T00:30:00Z",
                    "2026-11-25T00:30:00Z")
                .subList(2, 6));
  }

  @Test
  void filesOfAClockThatWasAheadTakeNoPlace() {
    List<Path> files =
        made(
            "2026-11-22T00:30:00Z",
            "2026-11-23T00:30:00Z",
            "2026-11-24T00:30:00Z",
            "2026-11-25T00:30:00Z",
            "2031-01-01T00:30:00Z",
            "2031-02-02T00:30:00Z",
            "2031-03-03T00:30:00Z",
            "2031-03-04T00:30:00Z");
    assertThat(PLAN.superfluous(files, Instant.parse("2026-11-25T00:30:00Z")))
        .containsExactlyElementsOf(made("2026-11-22T00:30:00Z").subList(2, 3));
  }

  @Test
  void settingsThatCantBeReadAreNamed() {
    assertThatThrownBy(() -> BackupPlan.parse("25:00", "3 days", ZoneId.of("UTC")))
        .isInstanceOf(StartRefused.class)
        .hasMessage("TRESTLE_BACKUP_AT must be a time of day like 02:30, not \"25:00\".");
    for (String keep : List.of("", "all", "0 days", "2 months", "-1 days")) {
      assertThatThrownBy(() -> BackupPlan.parse("02:30", keep, ZoneId.of("UTC")))
          .isInstanceOf(StartRefused.class)
          .hasMessageStartingWith("TRESTLE_BACKUP_KEEP must say how many to keep");
    }
    BackupPlan.Keep keep = BackupPlan.Keep.parse("14 days, 12 months");
    assertThat(BackupPlan.Keep.parse(keep.toString())).isEqualTo(keep);
  }
}
