package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.function.ToIntFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import trestle.server.TestDatabase;

/** Periods of the calendar against two counts that others made: PostgreSQL's and RFC 5545's. */
class IntervalElsewhereTest {
  private static final int CASES = 10_000;
  private static final LocalDate FIRST = LocalDate.of(1900, 1, 1);
  private static final LocalDate LAST = LocalDate.of(2199, 12, 31);

  /** A date and a period, several times over. */
  record Case(LocalDate from, Interval every, int times) {}

  /** What came of it: added, taken away, and the end of the month it was added into. */
  record Answer(LocalDate added, LocalDate taken, LocalDate monthEnd) {}

  @Test
  void monthsAreAddedAsPostgresAddsThem() throws SQLException {
    agree(cases(random -> new Interval(0, 1 + random.nextInt(2_400), 0, 0)));
  }

  @Test
  void soAreYearsWithMonthsAndDays() throws SQLException {
    agree(
        cases(
            random ->
                new Interval(
                    random.nextInt(30),
                    random.nextInt(30),
                    random.nextInt(10),
                    1 + random.nextInt(400))));
  }

  /** The ends of months are where counts differ: none of them is left to chance. */
  @Test
  void soAreMonthsFromEveryMonthsLastDays() throws SQLException {
    List<Case> cases = new ArrayList<>();
    for (LocalDate day = LocalDate.of(2096, 1, 1); day.getYear() < 2105; day = day.plusDays(1)) {
      if (day.getDayOfMonth() > 27) {
        for (int months = 1; months <= 13; months++) {
          cases.add(new Case(day, Interval.ofMonths(months), 1));
        }
      }
    }
    agree(cases);
  }

  @Test
  void aChainIsNoticed() throws SQLException {
    Case twice = new Case(LocalDate.of(2025, 1, 31), Interval.ofMonths(1), 2);
    LocalDate chained =
        Interval.ofMonths(1).addedTo(Interval.ofMonths(1).addedTo(LocalDate.of(2025, 1, 31)));
    assertThat(postgres(List.of(twice)).get(0).added()).isNotEqualTo(chained);
  }

  private static List<Case> cases(java.util.function.Function<Random, Interval> every) {
    Random random = new Random();
    int days = (int) (LAST.toEpochDay() - FIRST.toEpochDay());
    return Stream.generate(
            () ->
                new Case(
                    FIRST.plusDays(random.nextInt(days)),
                    every.apply(random),
                    1 + random.nextInt(5)))
        .limit(CASES)
        .toList();
  }

  private static void agree(List<Case> cases) throws SQLException {
    List<Answer> theirs = postgres(cases);
    assertThat(theirs).hasSameSizeAs(cases);
    for (int i = 0; i < cases.size(); i++) {
      assertThat(ours(cases.get(i))).as("%s", cases.get(i)).isEqualTo(theirs.get(i));
    }
  }

  private static Answer ours(Case one) {
    long from = one.from().toEpochDay();
    return new Answer(
        LocalDate.ofEpochDay(one.every().after(from, one.times())),
        one.every().takenFrom(one.from()),
        LocalDate.ofEpochDay(one.every().afterToMonthEnd(from, one.times())));
  }

  /** All of them in one statement: {@code date + interval}, whose documentation is chapter 9.9. */
  private static List<Answer> postgres(List<Case> cases) throws SQLException {
    String every = "make_interval(years => y, months => m, weeks => w, days => d)";
    String asked =
        "select (a + k * %1$s)::date, (a - %1$s)::date, (date_trunc('month', a + k *"
                .formatted(every)
            + " make_interval(years => y, months => m)) + interval '1 month' - interval '1 day')"
            + "::date from unnest(?::text[]::date[], ?::int[], ?::int[], ?::int[], ?::int[],"
            + " ?::int[]) with ordinality as asked (a, y, m, w, d, k, n) order by n";
    try (Connection connection = TestDatabase.asSuperuser();
        PreparedStatement statement = connection.prepareStatement(asked)) {
      statement.setArray(
          1,
          connection.createArrayOf(
              "text", cases.stream().map(one -> one.from().toString()).toArray()));
      setInts(connection, statement, 2, cases, one -> one.every().years());
      setInts(connection, statement, 3, cases, one -> one.every().months());
      setInts(connection, statement, 4, cases, one -> one.every().weeks());
      setInts(connection, statement, 5, cases, one -> one.every().days());
      setInts(connection, statement, 6, cases, Case::times);
      List<Answer> answers = new ArrayList<>();
      try (ResultSet rows = statement.executeQuery()) {
        while (rows.next()) {
          answers.add(new Answer(day(rows, 1), day(rows, 2), day(rows, 3)));
        }
      }
      return answers;
    }
  }

  private static void setInts(
      Connection connection,
      PreparedStatement statement,
      int place,
      List<Case> cases,
      ToIntFunction<Case> value)
      throws SQLException {
    Object[] values = cases.stream().mapToInt(value).boxed().toArray();
    statement.setArray(place, connection.createArrayOf("int4", values));
  }

  private static LocalDate day(ResultSet row, int column) throws SQLException {
    return row.getObject(column, LocalDate.class);
  }

  /** An example of RFC 5545, section 3.8.5.3, in its words: rule and what it gives. */
  record Example(String words, String from, String every, List<String> gives) {}

  private static final List<Example> EXAMPLES =
      List.of(
          new Example(
              "FREQ=DAILY;COUNT=10",
              "1997-09-02",
              "P1D",
              List.of("1997-09-02", "1997-09-03", "1997-09-04", "1997-09-05", "1997-09-06")),
          new Example(
              "FREQ=DAILY;INTERVAL=10;COUNT=5",
              "1997-09-02",
              "P10D",
              List.of("1997-09-02", "1997-09-12", "1997-09-22", "1997-10-02", "1997-10-12")),
          new Example(
              "FREQ=WEEKLY;INTERVAL=2;WKST=SU",
              "1997-09-02",
              "P2W",
              List.of("1997-09-02", "1997-09-16", "1997-09-30", "1997-10-14", "1997-10-28")),
          new Example(
              "FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15, its days 15",
              "1997-09-15",
              "P1M",
              List.of("1997-09-15", "1997-10-15", "1997-11-15", "1997-12-15", "1998-01-15")),
          new Example(
              "FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15, its days 13",
              "1997-09-13",
              "P18M",
              List.of("1997-09-13", "1999-03-13")),
          new Example(
              "FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5, its days 15",
              "2007-01-15",
              "P1M",
              List.of("2007-01-15", "2007-02-15", "2007-03-15")));

  /** Where every month has the day, both count alike: [V] the published examples. */
  @TestFactory
  Stream<DynamicTest> agreesWithRecurrenceWhereTheDayExists() {
    return Cases.each(
        EXAMPLES,
        Example::words,
        example ->
            assertThat(dates(example.every(), example.from(), example.gives().size()))
                .isEqualTo(example.gives()));
  }

  /**
   * "If the recurrence rule generates an invalid date (February 30) … it MUST be ignored and MUST
   * NOT be counted" (RFC 5545, section 3.3.10; the example of 3.8.5.3 with BYMONTHDAY=15,30 gives
   * no date for the 30th in February 2007). Work due on such a day would never fall due: ours falls
   * on the month's last day, and the month after is on the day again.
   */
  @Test
  void clampsWhereRecurrenceSkips() {
    assertThat(recurrence(2007, 1, 30, 3))
        .containsExactly("2007-01-30", "2007-03-30", "2007-04-30");
    assertThat(dates("P1M", "2007-01-30", 3))
        .containsExactly("2007-01-30", "2007-02-28", "2007-03-30");
    assertThat(recurrence(2025, 1, 31, 4))
        .containsExactly("2025-01-31", "2025-03-31", "2025-05-31", "2025-07-31");
    assertThat(dates("P1M", "2025-01-31", 4))
        .containsExactly("2025-01-31", "2025-02-28", "2025-03-31", "2025-04-30");
  }

  /** Over 40 years from each day: recurrence's dates are among ours, and ours miss no month. */
  @Test
  void fallsDueInEveryMonthAndOnEveryDateThatRecurrenceGives() {
    for (int day = 1; day <= 31; day++) {
      List<String> ours = dates("P1M", "2088-01-" + (day < 10 ? "0" : "") + day, 480);
      assertThat(ours).containsAll(recurrence(2088, 1, day, 200));
      assertThat(ours.stream().map(date -> date.substring(0, 7)).distinct()).hasSize(480);
      if (day <= 28) {
        assertThat(ours).isEqualTo(recurrence(2088, 1, day, 480));
      }
    }
  }

  /** FREQ=MONTHLY counted by the RFC's words alone, without a calendar of anybody's. */
  private static List<String> recurrence(int year, int month, int day, int count) {
    int[] lengths = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    List<String> dates = new ArrayList<>();
    for (int y = year, m = month; dates.size() < count; y += m / 12, m = m % 12 + 1) {
      boolean leap = y % 4 == 0 && y % 100 != 0 || y % 400 == 0;
      int length = lengths[m - 1] + (m == 2 && leap ? 1 : 0);
      if (day <= length) {
        dates.add("%d-%02d-%02d".formatted(y, m, day));
      }
    }
    return dates;
  }

  private static List<String> dates(String every, String from, int count) {
    long anchor = LocalDate.parse(from).toEpochDay();
    return IntStream.range(0, count)
        .mapToObj(k -> LocalDate.ofEpochDay(Interval.parse(every).after(anchor, k)).toString())
        .toList();
  }
}
