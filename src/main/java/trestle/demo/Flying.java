package trestle.demo;

import java.time.Month;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.random.RandomGenerator;

/** How one aircraft is flown: how often in each month, and on which rounds from the base. */
record Flying(String registration, String base, List<Double> flightsAWeek, List<Round> rounds) {
  private static final List<String> MONTHS =
      Arrays.stream(Month.values())
          .map(m -> m.name().substring(0, 3).toLowerCase(Locale.ROOT))
          .toList();
  private static final double FLIGHTS_A_ROUND = 2;

  /** Flights that start and end at the base, one after another. */
  record Round(int weight, List<Leg> legs) {}

  record Leg(String to, int minutes) {}

  static List<Flying> all(String base) {
    List<SeedFile.Line> routes = SeedFile.lines("routes.csv");
    return SeedFile.lines("flying.csv").stream()
        .map(
            line ->
                new Flying(
                    line.text("registration"),
                    base,
                    MONTHS.stream().map(line::number).toList(),
                    routes.stream()
                        .filter(r -> r.text("registration").equals(line.text("registration")))
                        .map(Flying::round)
                        .toList()))
        .toList();
  }

  private static Round round(SeedFile.Line line) {
    List<Leg> legs = new ArrayList<>();
    for (String leg : List.of("first", "second", "third")) {
      if (line.has(leg)) {
        legs.add(new Leg(line.text(leg), line.count(leg + "_minutes")));
      }
    }
    return new Round(line.count("weight"), legs);
  }

  /** How many rounds are flown on a day of that month: none, one or two. */
  int roundsOn(Month month, RandomGenerator dice) {
    double aDay = flightsAWeek.get(month.getValue() - 1) / 7 / FLIGHTS_A_ROUND;
    int first = dice.nextDouble() < aDay * 0.7 ? 1 : 0;
    int second = dice.nextDouble() < aDay * 0.3 ? 1 : 0;
    return first + second;
  }

  Round anyRound(RandomGenerator dice) {
    int pick = dice.nextInt(rounds.stream().mapToInt(Round::weight).sum());
    for (Round round : rounds) {
      pick -= round.weight;
      if (pick < 0) {
        return round;
      }
    }
    throw new IllegalStateException("weights are positive");
  }
}
