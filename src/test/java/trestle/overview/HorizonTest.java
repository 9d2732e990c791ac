package trestle.overview;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class HorizonTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

  @Test
  void nearDaysGetTheRoom() {
    Horizon horizon = Horizon.of(List.of(peg("a", 1), peg("b", 30), peg("c", 365)), TODAY);
    assertThat(horizon.marks())
        .extracting(Horizon.Mark::x)
        .containsExactly("12.1%", "31.9%", "92.1%");
  }

  @Test
  void whatIsPastDueStandsLeftOfToday() {
    Peg past = new Peg("late", TODAY, true, false, "held", "now");
    assertThat(Horizon.of(List.of(past), TODAY).marks().get(0).x()).isEqualTo("4.5%");
  }

  @Test
  void whatIsTooFarOffIsNotDrawn() {
    assertThat(Horizon.of(List.of(peg("a", 500)), TODAY).marks()).isEmpty();
  }

  @Test
  void labelsNeverRunIntoOneAnotherAtAnyWidth() {
    List<Peg> pegs = IntStream.range(0, 40).mapToObj(i -> peg("inspection " + i, i * 9)).toList();
    List<Horizon.Mark> marks = Horizon.of(pegs, TODAY).marks();
    for (int width : new int[] {270, 440, 640, 960}) {
      double end = -1;
      for (Horizon.Mark mark : marks) {
        if (mark.isLabelled() && shownFrom(mark) <= width) {
          double at = Double.parseDouble(mark.x().replace("%", "")) / 100 * width;
          double length = mark.label().length() * 6.5;
          double from = mark.leftwards() ? at - length : at;
          assertThat(from).as(mark.label() + " at " + width).isGreaterThan(end);
          end = mark.leftwards() ? at : at + length;
        }
      }
    }
    assertThat(marks).filteredOn(Horizon.Mark::isLabelled).isNotEmpty();
  }

  @Test
  void theDrawingIsToldInWords() {
    assertThat(Horizon.of(List.of(peg("50 h", 9), peg("annual", 30)), TODAY).words())
        .isEqualTo("50 h 4 Dec; annual 25 Dec");
    assertThat(Horizon.of(List.of(), TODAY).words()).isEqualTo("nothing with a date");
  }

  private static int shownFrom(Horizon.Mark mark) {
    return mark.from().isEmpty() ? 0 : Integer.parseInt(mark.from().substring(1));
  }

  private static Peg peg(String label, int days) {
    LocalDate on = TODAY.plusDays(days);
    return new Peg(label, on, false, true, "", trestle.web.Shown.day(on));
  }
}
