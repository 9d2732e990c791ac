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
 * width; each label shows from the width at which it does not run into another.
 */
record Horizon(List<Mark> marks) {

  /**
   * A peg in its place.
   *
   * @param from the style that shows its label from a width on; "" for any, null for none
   */
  record Mark(String x, Peg peg, String label, String from, boolean leftwards) {

    public boolean isDate() {
      return peg.byDate();
    }

    public boolean isLabelled() {
      return from != null;
    }
  }

  /** A day of the scale above the rows. */
  record Tick(String x, String label) {}

  private static final double TODAY = 7.7;
  private static final double LAST = 99;
  private static final double PER_ROOT_OF_A_DAY = 4.42;
  private static final double PAST = 4.5;

  /** The widths, in pixels, from which the style sheet shows more labels. */
  private static final int[] WIDTHS = {270, 440, 640, 960};

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
    List<Peg> drawn = new ArrayList<>();
    List<Label> labels = new ArrayList<>();
    for (Peg peg : pegs) {
      double x = peg.past() ? PAST : place(ChronoUnit.DAYS.between(today, peg.on()));
      if (x <= LAST) {
        drawn.add(peg);
        labels.add(new Label(x, shortened(peg.label()), x > 60));
      }
    }
    Label.place(labels);
    List<Mark> marks = new ArrayList<>();
    for (int i = 0; i < drawn.size(); i++) {
      Label label = labels.get(i);
      marks.add(new Mark(percent(label.x), drawn.get(i), label.text, label.from, label.leftwards));
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

  /** The label of a peg, until it is settled from which width on it has room. */
  private static final class Label {
    private final double x;
    private final String text;
    private final boolean leftwards;
    private String from;

    Label(double x, String text, boolean leftwards) {
      this.x = x;
      this.text = text;
      this.leftwards = leftwards;
    }

    /** From the narrowest width on: those that have room there keep it, then the soonest first. */
    static void place(List<Label> labels) {
      List<Label> placed = new ArrayList<>();
      for (int width : WIDTHS) {
        for (Label label : labels) {
          if (label.from == null && label.hasRoom(placed, width)) {
            label.from = width == WIDTHS[0] ? "" : "w" + width;
            placed.add(label);
          }
        }
      }
    }

    private boolean hasRoom(List<Label> placed, int width) {
      return start(width) >= 0
          && end(width) <= width
          && placed.stream()
              .noneMatch(
                  other -> start(width) < other.end(width) && end(width) > other.start(width));
    }

    private double start(int width) {
      return leftwards ? x / 100 * width - length() : x / 100 * width;
    }

    private double end(int width) {
      return leftwards ? x / 100 * width : x / 100 * width + length();
    }

    private double length() {
      return text.length() * A_LETTER + GAP;
    }
  }
}
