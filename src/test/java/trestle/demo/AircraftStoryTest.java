package trestle.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The story comes out as the seed says on any day it is told. */
class AircraftStoryTest {
  private static final ZoneId ZONE = ZoneId.of("America/St_Johns");

  // Midsummer, midwinter, 29 February, the days on which clocks go forward and back (2026 there).
  @ParameterizedTest
  @ValueSource(
      strings = {
        "2026-07-15",
        "2027-01-10",
        "2028-02-29",
        "2026-03-08",
        "2026-11-01",
        "2026-05-02"
      })
  void flightsFollowOneAnother(LocalDate today) {
    for (AircraftStory story : told(today)) {
      List<PlannedFlight> flights = story.plan().flights();
      for (int i = 1; i < flights.size(); i++) {
        PlannedFlight before = flights.get(i - 1);
        PlannedFlight flight = flights.get(i);
        assertThat(Duration.between(before.landing(), flight.takeOff()))
            .as(story.registration() + " " + flight)
            .isGreaterThan(Duration.ofMinutes(15));
        assertThat(flight.from()).isEqualTo(before.to());
        assertThat(flight.minutes()).isBetween(20, 110);
      }
      assertThat(flights.get(flights.size() - 1).landing())
          .isBefore(today.atStartOfDay(ZONE).toInstant());
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2026-07-15",
        "2027-01-10",
        "2028-02-29",
        "2026-03-08",
        "2026-11-01",
        "2026-05-02"
      })
  void twoYearsAreOfPlausibleSizeAndTheFloatplaneRestsInWinter(LocalDate today) {
    List<AircraftStory> stories = told(today);

    int flights = stories.stream().mapToInt(story -> story.plan().flights().size()).sum();
    assertThat(flights).isBetween(1_400, 2_100);
    assertThat(of(stories, "QX-AUK").plan().flights())
        .noneMatch(
            flight -> {
              int month = LocalDate.ofEpochDay(flight.day()).getMonthValue();
              return month > 10 || month < 5;
            });
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2026-07-15",
        "2027-01-10",
        "2028-02-29",
        "2026-03-08",
        "2026-11-01",
        "2026-05-02"
      })
  void theLastDoingsLieExactlyWhereTheSeedSays(LocalDate today) {
    List<AircraftStory> stories = told(today);

    assertThat(flownSince(of(stories, "QX-SOR"), w -> inspects(w))).isEqualTo(101 * 60 + 30);
    assertThat(flownSince(of(stories, "QX-TBC"), w -> w.requirement().equals("exhaust-clamps")))
        .isEqualTo(52 * 60 + 18);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "2026-07-15",
        "2027-01-10",
        "2028-02-29",
        "2026-03-08",
        "2026-11-01",
        "2026-05-02"
      })
  void inspectionsComeInTime(LocalDate today) {
    for (AircraftStory story : told(today)) {
      long left = story.registration().equals("QX-SOR") ? 102 * 60 : 99 * 60;
      assertThat(flownSince(story, w -> inspects(w))).isLessThan(left);
      assertThat(flownSince(story, w -> inspects(w) || w.requirement().equals("50-hour")))
          .as(story.registration() + " services")
          .isLessThan(50 * 60);
      LocalDate annual =
          story.work().stream()
              .filter(w -> w.requirement().equals("annual"))
              .map(w -> w.at().atZone(ZONE).toLocalDate())
              .max(Comparator.naturalOrder())
              .orElseThrow();
      assertThat(ChronoUnit.DAYS.between(annual, today)).as(story.registration()).isLessThan(320);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"2026-07-15", "2027-01-10"})
  void theSameDayTellsTheSameStory(LocalDate today) {
    assertThat(told(today)).isEqualTo(told(today));
  }

  private static boolean inspects(Work work) {
    return work.requirement().equals("100-hour") || work.requirement().equals("annual");
  }

  private static long flownSince(AircraftStory story, Predicate<Work> counted) {
    Work last = story.work().stream().filter(counted).reduce((a, b) -> b).orElseThrow();
    return story.plan().flights().stream()
        .filter(flight -> flight.landing().isAfter(last.at()))
        .mapToLong(PlannedFlight::minutes)
        .sum();
  }

  private static AircraftStory of(List<AircraftStory> stories, String registration) {
    return stories.stream()
        .filter(story -> story.registration().equals(registration))
        .findFirst()
        .orElseThrow();
  }

  private static List<AircraftStory> told(LocalDate today) {
    return AircraftStory.all("Port Maddern", today, ZONE);
  }
}
