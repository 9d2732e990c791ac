package trestle.overview;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * The drawing of what comes up: a line of days from today on a square-root scale, so that near days
 * get the room. Places are parts of its width in per cent, so that type keeps one size whatever the
 * width; a label that would run into the one before is dropped, and a second, sparser choice of
 * labels is made for a narrow screen.
 */
record Horizon(List<Mark> marks) {
  /** A peg in its place; label "" where it has no room. */
  record Mark(String x, Peg peg, String label, boolean narrowToo, boolean leftwards) {

    public boolean isDate() {
      return peg.byDate();
    }
  }

  /** A day of the scale above the rows. */
  record Tick(String x, String label) {}

  private static final double TODAY = 7.7;
  private static final double LAST = 99;
  private static final double PER_ROOT_OF_A_DAY = 4.42;
  private static final double PAST = 4.5;

  /** Pixels across in the narrowest drawing that shows all its labels, and in a phone's. */
  private static final double WIDE = 520;

  private static final double NARROW = 300;
  private static final double A_LETTER = 6.9;
  private static final double GAP = 14;
  private static final int LONGEST_LABEL = 24;

  static final List<Tick> SCALE =
      List.of(
          new Tick(percent(TODAY), "today"),
          new Tick(percent(place(7)), "1 w"),
          new Tick(percent(place(30)), "1 mo"),
          new Tick(percent(place(91)), "3 mo"),
          new Tick(percent(place(365)), "1 y"));

  /** The pegs, the soonest first; those too far off to be drawn are in the list in words. */
  static Horizon of(List<Peg> pegs, LocalDate today) {
    List<Mark> marks = new ArrayList<>();
    Room wide = new Room(WIDE);
    Room narrow = new Room(NARROW);
    for (Peg peg : pegs) {
      double x = peg.past() ? PAST : place(ChronoUnit.DAYS.between(today, peg.on()));
      if (x <= LAST) {
        String label = shortened(peg.label());
        boolean leftwards = x > 70;
        boolean shown = wide.take(x, label, leftwards);
        boolean narrowToo = shown && narrow.take(x, label, leftwards);
        marks.add(new Mark(percent(x), peg, shown ? label : "", narrowToo, leftwards));
      }
    }
    return new Horizon(List.copyOf(marks));
  }

  public List<Tick> scale() {
    return SCALE;
  }

  public String today() {
    return SCALE.get(0).x();
  }

  /** All pegs in words: what a reader who does not see the drawing is told. */
  public String words() {
    return marks.isEmpty()
        ? "nothing with a date"
        : marks.stream()
            .map(mark -> mark.peg().label() + " " + mark.peg().about())
            .collect(Collectors.joining("; "));
  }

  private static double place(long days) {
    return TODAY + PER_ROOT_OF_A_DAY * Math.sqrt(days);
  }

  private static String shortened(String label) {
    return label.length() <= LONGEST_LABEL
        ? label
        : label.substring(0, LONGEST_LABEL - 1).strip() + "\u2026";
  }

  private static String percent(double x) {
    return String.format(Locale.ROOT, "%.1f%%", x);
  }

  /** The room along the line of labels, in a drawing of one width. */
  private static final class Room {
    private final double width;
    private final List<double[]> taken = new ArrayList<>();

    Room(double width) {
      this.width = width;
    }

    boolean take(double x, String label, boolean leftwards) {
      double length = label.length() * A_LETTER + GAP;
      double at = x / 100 * width;
      double from = leftwards ? at - length : at;
      double to = leftwards ? at : at + length;
      if (from < 0 || to > width) {
        return false;
      }
      for (double[] other : taken) {
        if (from < other[1] && to > other[0]) {
          return false;
        }
      }
      taken.add(new double[] {from, to});
      return true;
    }
  }
}
