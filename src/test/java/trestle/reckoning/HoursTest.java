package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.stream.Stream;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.LongRange;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

class HoursTest {

  record Read(String text, long seconds, String shown) {}

  private static final List<Read> READ =
      List.of(
          new Read("0", 0, "0"),
          new Read("0.1", 360, "0.1"),
          new Read("0.01", 36, "0.01"),
          new Read("1106.0", 3_981_600, "1106"),
          new Read("1234.50", 4_444_200, "1234.5"),
          new Read("0:01", 60, "0:01"),
          new Read("0:06", 360, "0.1"),
          new Read("1:30", 5_400, "1.5"),
          new Read("12:34:56", 45_296, "12:34:56"),
          new Read("0:00:36", 36, "0.01"),
          new Read("007.5", 27_000, "7.5"),
          new Read("10000000", 36_000_000_000L, "10000000"));

  @TestFactory
  Stream<DynamicTest> readsAndShows() {
    return Cases.each(
        READ,
        Read::text,
        row -> {
          assertThat(Hours.parse(row.text).seconds()).isEqualTo(row.seconds);
          assertThat(Hours.parseTyped(row.text).seconds()).isEqualTo(row.seconds);
          assertThat(Hours.parse(row.text)).hasToString(row.shown);
        });
  }

  record Typed(String text, String means) {}

  private static final List<Typed> TYPED =
      List.of(
          new Typed(" 12.5 ", "12.5"),
          new Typed("1,234.5", "1234.5"),
          new Typed("1,234,567", "1234567"),
          new Typed("1 234.5", "1234.5"),
          new Typed("12 : 30", "12.5"),
          new Typed("12 .5", "12.5"),
          new Typed("\t6,000\n", "6000"),
          new Typed("1,234:30", "1234.5"));

  @TestFactory
  Stream<DynamicTest> readsWhatPeopleType() {
    return Cases.each(
        TYPED, Typed::text, row -> assertThat(Hours.parseTyped(row.text)).hasToString(row.means));
  }

  record Refused(String text, String reason) {}

  private static final List<Refused> REFUSED =
      List.of(
          new Refused("12:75", "has minutes or seconds above 59"),
          new Refused("12:30:60", "has minutes or seconds above 59"),
          new Refused("1.2.3", "is not a number of hours"),
          new Refused("1e3", "is not a number of hours"),
          new Refused("1,5", "has a comma that is not a thousands mark"),
          new Refused("1234,567", "has a comma that is not a thousands mark"),
          new Refused("1,23", "has a comma that is not a thousands mark"),
          new Refused("1,2345", "has a comma that is not a thousands mark"),
          new Refused("\u2212", "must not be negative"),
          new Refused("\u22121", "must not be negative"),
          new Refused("-1", "must not be negative"),
          new Refused("NaN", "is not a number of hours"),
          new Refused("Infinity", "is not a number of hours"),
          new Refused("", "is blank"),
          new Refused("   ", "is blank"),
          new Refused("+1", "is not a number of hours"),
          new Refused("1.", "is not a number of hours"),
          new Refused(".5", "is not a number of hours"),
          new Refused("1.234", "has more than two digits after the point"),
          new Refused("1:2", "is not a number of hours"),
          new Refused("1 2", "is not a number of hours"),
          new Refused("0x10", "is not a number of hours"),
          new Refused("12\u0663", "is not a number of hours"),
          new Refused("\uff11\uff12", "is not a number of hours"),
          new Refused("123456789", "has more than eight digits"),
          new Refused("10000000.01", "must be at most 10,000,000 h"),
          new Refused("10000000:00:01", "must be at most 10,000,000 h"));

  @TestFactory
  Stream<DynamicTest> refusesWithAReason() {
    return Cases.each(
        REFUSED,
        row -> "'" + row.text + "'",
        row -> {
          assertThatThrownBy(() -> Hours.parse(row.text)).hasMessageContaining(row.reason);
          assertThatThrownBy(() -> Hours.parseTyped(row.text)).hasMessageContaining(row.reason);
        });
  }

  @Test
  void theApiTakesNoThousandsMarkAndNoBlank() {
    for (String text : List.of("1,234.5", " 1", "1 ", "1 234", "1\n")) {
      assertThatThrownBy(() -> Hours.parse(text))
          .as(text)
          .isInstanceOf(IllegalArgumentException.class);
    }
  }

  @Test
  void tenTimesATenthIsOne() {
    Hours sum = Hours.ZERO;
    for (int i = 0; i < 10; i++) {
      sum = sum.plus(Hours.parse("0.1"));
    }
    assertThat(sum).isEqualTo(Hours.parse("1")).hasToString("1");
  }

  record Shown(long seconds, HoursStyle style, String left, String used) {}

  private static final List<Shown> SHOWN =
      List.of(
          new Shown(3_960, HoursStyle.TENTHS, "1.1", "1.1"),
          new Shown(3_961, HoursStyle.TENTHS, "1.1", "1.2"),
          new Shown(4_319, HoursStyle.TENTHS, "1.1", "1.2"),
          new Shown(3_961, HoursStyle.HUNDREDTHS, "1.10", "1.11"),
          new Shown(3_961, HoursStyle.MINUTES, "1:06", "1:07"),
          new Shown(59, HoursStyle.MINUTES, "0:00", "0:01"),
          new Shown(-1, HoursStyle.TENTHS, "-0.1", "0.0"),
          new Shown(-360, HoursStyle.TENTHS, "-0.1", "-0.1"),
          new Shown(-361, HoursStyle.MINUTES, "-0:07", "-0:06"),
          new Shown(4_444_200, HoursStyle.TENTHS, "1,234.5", "1,234.5"),
          new Shown(3_600_000_000L, HoursStyle.MINUTES, "1,000,000:00", "1,000,000:00"));

  @TestFactory
  Stream<DynamicTest> showsLeftRoundedDownAndUsedRoundedUp() {
    return Cases.each(
        SHOWN,
        row -> row.seconds + " s in " + row.style,
        row -> {
          assertThat(row.style.left(new Hours(row.seconds))).isEqualTo(row.left);
          assertThat(row.style.used(new Hours(row.seconds))).isEqualTo(row.used);
        });
  }

  /** 14 CFR 1.1 time in service [Q, our arithmetic]: airborne 09:12 to 10:18 is 1:06 = 1.1 h. */
  @Test
  void takesAFlightToTheTenth() {
    assertThat(Hours.parse("1:06").toTenth()).hasToString("1.1");
    assertThat(Hours.parse("1:02:59").toTenth()).hasToString("1");
    assertThat(Hours.parse("1:03").toTenth()).hasToString("1.1");
  }

  @Property
  void surviveTextAndBack(@ForAll @LongRange(min = 0, max = 36_000_000_000L) long seconds) {
    Hours hours = new Hours(seconds);
    assertThat(Hours.parse(hours.toString())).isEqualTo(hours);
    assertThat(Hours.parseTyped(hours.toString())).isEqualTo(hours);
    assertThat(new Hours(-seconds).toString()).isEqualTo(seconds == 0 ? "0" : "-" + hours);
  }

  @Property
  void neverShowMoreLeftNorLessUsedThanThereIs(
      @ForAll @LongRange(min = 0, max = 36_000_000_000L) long seconds, @ForAll HoursStyle style) {
    Hours hours = new Hours(seconds);
    assertThat(Hours.parseTyped(style.left(hours))).isLessThanOrEqualTo(hours);
    assertThat(Hours.parseTyped(style.used(hours))).isGreaterThanOrEqualTo(hours);
  }
}
