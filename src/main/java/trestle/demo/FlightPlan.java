package trestle.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.Month;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.random.RandomGenerator;

/**
 * Every flight of one aircraft in the two years that end yesterday, in order. The same aircraft and
 * the same today always give the same flights. A <em>place</em> is an index into the flights: the
 * moment before that flight, after the one before.
 */
record FlightPlan(String registration, ZoneId zone, LocalDate today, List<PlannedFlight> flights) {
  static final int DAYS = 730;
  private static final Set<Month> SHORT_DAYS =
      EnumSet.of(Month.NOVEMBER, Month.DECEMBER, Month.JANUARY, Month.FEBRUARY);

  FlightPlan {
    flights = List.copyOf(flights);
  }

  static FlightPlan of(Flying flying, LocalDate today, ZoneId zone) {
    List<PlannedFlight> flights = new ArrayList<>();
    for (int ago = DAYS; ago >= 1; ago--) {
      LocalDate day = today.minusDays(ago);
      var dice = new SplittableRandom(flying.registration().hashCode() * 10_007L + ago);
      flights.addAll(flightsOn(day, flying, zone, dice));
    }
    return new FlightPlan(flying.registration(), zone, today, flights);
  }

  private static List<PlannedFlight> flightsOn(
      LocalDate day, Flying flying, ZoneId zone, RandomGenerator dice) {
    List<PlannedFlight> flights = new ArrayList<>();
    LocalTime end =
        SHORT_DAYS.contains(day.getMonth()) ? LocalTime.of(16, 45) : LocalTime.of(19, 30);
    LocalTime next = LocalTime.of(8, 0).plusMinutes(dice.nextInt(150));
    for (int rounds = flying.roundsOn(day.getMonth(), dice); rounds > 0; rounds--) {
      List<PlannedFlight> round = new ArrayList<>();
      String from = flying.base();
      for (Flying.Leg leg : flying.anyRound(dice).legs()) {
        int minutes = (int) Math.round(leg.minutes() * (0.93 + dice.nextDouble() * 0.19));
        boolean local = from.equals(leg.to());
        Instant takeOff = day.atTime(next).atZone(zone).toInstant();
        round.add(
            new PlannedFlight(
                day.toEpochDay(),
                takeOff,
                minutes,
                from,
                leg.to(),
                local ? 1 + dice.nextInt(6) : 1,
                dice.nextInt(10_000)));
        from = leg.to();
        next = next.plusMinutes(minutes + 25L + dice.nextInt(45));
      }
      if (next.isAfter(end)) {
        break;
      }
      flights.addAll(round);
      next = next.plusMinutes(20);
    }
    return flights;
  }

  /** Minutes flown from a place on. */
  long minutesFrom(int place) {
    return flights.subList(place, flights.size()).stream().mapToLong(PlannedFlight::minutes).sum();
  }

  long minutesBetween(int place, int later) {
    return minutesFrom(place) - minutesFrom(later);
  }

  /** The start of a flying day from which on the minutes flown come nearest to those wanted. */
  int placeAgo(long wanted) {
    int nearest = 0;
    long best = Long.MAX_VALUE;
    long flown = 0;
    for (int i = flights.size() - 1; i >= 0; i--) {
      flown += flights.get(i).minutes();
      if (startsDay(i) && Math.abs(flown - wanted) < best) {
        best = Math.abs(flown - wanted);
        nearest = i;
      }
    }
    return nearest;
  }

  boolean startsDay(int place) {
    return place == 0 || flights.get(place - 1).day() < flights.get(place).day();
  }

  /** The same flights, each from the place on a little longer or shorter, for an exact sum. */
  FlightPlan exactlyFrom(int place, long wanted) {
    long missing = wanted - minutesFrom(place);
    int count = flights.size() - place;
    List<PlannedFlight> stretched = new ArrayList<>(flights.subList(0, place));
    for (int i = 0; i < count; i++) {
      long upToHere = missing * (i + 1) / count - missing * i / count;
      stretched.add(flights.get(place + i).longerBy((int) upToHere));
    }
    return new FlightPlan(registration, zone, today, stretched);
  }

  /** When work at a place is signed: on the day after when there is one, else that evening. */
  Instant momentAt(int place) {
    if (place == 0) {
      return flights.get(0).takeOff().minus(Duration.ofMinutes(45));
    }
    PlannedFlight before = flights.get(place - 1);
    Instant dayAfter =
        LocalDate.ofEpochDay(before.day()).plusDays(1).atTime(15, 40).atZone(zone).toInstant();
    return flights.get(place).takeOff().isAfter(dayAfter.plus(Duration.ofHours(12)))
        ? dayAfter
        : before.landing().plus(Duration.ofMinutes(80));
  }

  /** Early in the morning of a day some days ago, before anything flies. */
  Instant morning(int daysAgo) {
    return today.minusDays(daysAgo).atTime(7, 15).atZone(zone).toInstant();
  }
}
