package trestle.overview;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import trestle.overview.Horizon.Mark;
import trestle.web.Shown;

class HorizonTest {
  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
  private static final int NARROWEST = 280;

  /** Places are written to a tenth of a per cent; labels keep eight pixels apart. */
  private static final double ROUNDED = 1.5;

  private static final String[] WORDS = {
    "50 h service", "annual", "ELT battery", "engine overhaul", "WWWWWWWW", "il", "FD 2025-14", "π"
  };

  @Test
  void nearDaysGetTheRoom() {
    Horizon horizon = Horizon.of(List.of(peg("a", 1), peg("b", 30), peg("c", 365)), TODAY);
    assertThat(horizon.marks())
        .extracting(Horizon.Mark::x)
        .containsExactly("12.1%", "31.9%", "92.1%");
  }

  @Test
  void whatIsPastDueStandsLeftOfToday() {
    Peg past = new Peg("late", TODAY, true, Peg.Shape.USE, "held", "now");
    assertThat(Horizon.of(List.of(past), TODAY).marks().get(0).x()).isEqualTo("4.5%");
  }

  @Test
  void whatIsTooFarOffIsNotDrawn() {
    assertThat(Horizon.of(List.of(peg("a", 500)), TODAY).marks()).isEmpty();
  }

  @Test
  void ofTwoLabelsInOnePlaceTheLaterIsDropped() {
    Horizon horizon = Horizon.of(List.of(peg("annual inspection", 30), peg("100 h", 31)), TODAY);
    assertThat(horizon.marks()).extracting(Mark::isLabelled).containsExactly(true, false);
  }

  @Test
  void aLabelAtTheRightEdgeStandsLeftOfItsPeg() {
    Mark last = Horizon.of(List.of(peg("engine overhaul", 395)), TODAY).marks().get(0);
    assertThat(last.isLabelled()).isTrue();
    assertThat(last.leftwards()).isTrue();
  }

  @Test
  void theSpreadIsABarThatEndsWithTheDrawing() {
    Peg peg =
        new Peg(
            "overhaul",
            TODAY.plusDays(300),
            false,
            Peg.Shape.USE,
            "",
            "Sep 2027",
            TODAY.plusDays(200),
            TODAY.plusDays(900));
    Horizon.Bar bar = Horizon.of(List.of(peg), TODAY).marks().get(0).bar();
    assertThat(percent(bar.x())).isBetween(70.0, 71.0);
    assertThat(percent(bar.x()) + percent(bar.width())).isBetween(97.8, 98.2);
  }

  @Test
  void noLabelTouchesAnotherAndNothingLeavesTheBoxAtAnyWidth() {
    Random random = new Random(20261125);
    int labels = 0;
    for (int set = 0; set < 500; set++) {
      Horizon horizon = Horizon.of(somePegs(random), TODAY);
      for (int width = NARROWEST; width <= 1400; width += 40) {
        labels += assertFits(horizon, width);
      }
    }
    assertThat(labels).isGreaterThan(10_000);
  }

  @Test
  void theDrawingIsToldInWords() {
    assertThat(Horizon.of(List.of(peg("50 h", 9), peg("annual", 30)), TODAY).words())
        .isEqualTo("50 h 4 Dec; annual 25 Dec");
    assertThat(Horizon.of(List.of(), TODAY).words()).isEqualTo("nothing with a date");
  }

  @Test
  void theScaleNamesDaysWithoutTouching() {
    for (int i = 1; i < Horizon.SCALE.size(); i++) {
      var left = Horizon.SCALE.get(i - 1);
      var right = Horizon.SCALE.get(i);
      assertThat((percent(right.x()) - percent(left.x())) / 100 * NARROWEST)
          .isGreaterThan(
              (HorizonLabels.length(left.label()) + HorizonLabels.length(right.label())) / 2);
    }
  }

  private record Box(double start, double end) {}

  private static int assertFits(Horizon horizon, int width) {
    List<Box> boxes = new ArrayList<>();
    for (Mark mark : horizon.marks()) {
      double at = percent(mark.x()) / 100 * width;
      assertThat(at).isBetween(5.0, width - 5.0);
      if (mark.isLabelled() && shownFrom(mark) <= width) {
        double length = HorizonLabels.length(mark.label());
        boxes.add(
            mark.leftwards() ? new Box(at - 8 - length, at - 8) : new Box(at + 8, at + 8 + length));
      }
    }
    boxes.sort(Comparator.comparing(Box::start));
    for (int i = 0; i < boxes.size(); i++) {
      assertThat(boxes.get(i).start()).isGreaterThanOrEqualTo(-ROUNDED);
      assertThat(boxes.get(i).end()).isLessThanOrEqualTo(width + ROUNDED);
      if (i > 0) {
        assertThat(boxes.get(i).start()).isGreaterThan(boxes.get(i - 1).end() - ROUNDED);
      }
    }
    return boxes.size();
  }

  private static int shownFrom(Mark mark) {
    return mark.from().isEmpty() ? 0 : Integer.parseInt(mark.from().substring(1));
  }

  private static double percent(String text) {
    return Double.parseDouble(text.replace("%", ""));
  }

  private static List<Peg> somePegs(Random random) {
    List<Peg> pegs = new ArrayList<>();
    for (int i = random.nextInt(45); i > 0; i--) {
      boolean past = random.nextInt(8) == 0;
      LocalDate on = TODAY.plusDays(past ? 0 : random.nextInt(480));
      pegs.add(
          new Peg(
              WORDS[random.nextInt(8)],
              on,
              past,
              random.nextBoolean() ? Peg.Shape.DATE : Peg.Shape.USE,
              "",
              "then"));
    }
    pegs.sort(Comparator.comparing(Peg::on));
    return pegs;
  }

  private static Peg peg(String label, int days) {
    LocalDate on = TODAY.plusDays(days);
    return new Peg(label, on, false, Peg.Shape.DATE, "", Shown.day(on));
  }
}
