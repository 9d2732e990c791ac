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
 * width; each label shows from the width at which it does not run into another. One scale for all.
 */
record Horizon(List<Mark> marks) {

  /**
   * A peg in its place.
   *
   * @param from the style that shows its label from a width on; "" for any, null for none
   * @param bar its spread, or null
   */
  record Mark(String x, Peg peg, String label, String from, boolean leftwards, Bar bar) {

    public boolean isLabelled() {
      return from != null;
    }
  }

  /** Where an item falls in nine cases of ten. */
  record Bar(String x, String width) {}

  /** A day of the scale above the rows. */
  record Tick(String x, String label) {}

  private static final double TODAY = 7.7;
  private static final double LAST = 98;
  private static final double PER_ROOT_OF_A_DAY = 4.42;
  private static final double PAST = 4.5;
  private static final int LONGEST_LABEL = 24;

  static final List<Tick> SCALE =
      List.of(
          new Tick(percent(TODAY), "today"),
          new Tick(percent(place(7)), "1 w"),
          new Tick(percent(place(30)), "1 mo"),
          new Tick(percent(place(91)), "3 mo"),
          new Tick(percent(place(182)), "6 mo"),
          new Tick(percent(place(365)), "1 y"));

  /** The pegs, the soonest first; those too far off to be drawn are in the list in words. */
  static Horizon of(List<Peg> pegs, LocalDate today) {
    List<Peg> drawn = pegs.stream().filter(peg -> place(peg, today) <= LAST).toList();
    HorizonLabels labels = new HorizonLabels();
    drawn.forEach(peg -> labels.add(place(peg, today), shortened(peg.label())));
    labels.place();
    List<Mark> marks = new ArrayList<>();
    for (int i = 0; i < drawn.size(); i++) {
      marks.add(mark(drawn.get(i), labels.placed(i), today));
    }
    return new Horizon(List.copyOf(marks));
  }

  public List<Tick> scale() {
    return SCALE;
  }

  /** All pegs in words: what a reader who does not see the drawing is told. */
  public String words() {
    return marks.isEmpty()
        ? "nothing with a date"
        : marks.stream()
            .map(mark -> mark.peg().label() + " " + mark.peg().about())
            .collect(Collectors.joining("; "));
  }

  private static Mark mark(Peg peg, HorizonLabels.Placed label, LocalDate today) {
    return new Mark(
        percent(place(peg, today)),
        peg,
        shortened(peg.label()),
        label == null ? null : label.style(),
        label != null && label.before(),
        bar(peg, today));
  }

  private static Bar bar(Peg peg, LocalDate today) {
    if (peg.earliest() == null || peg.latest() == null) {
      return null;
    }
    double left = Math.min(LAST, place(daysTo(peg.earliest(), today)));
    double right = Math.min(LAST, place(daysTo(peg.latest(), today)));
    return right > left ? new Bar(percent(left), percent(right - left)) : null;
  }

  private static double place(Peg peg, LocalDate today) {
    return peg.past() ? PAST : place(daysTo(peg.on(), today));
  }

  private static double place(long days) {
    return TODAY + PER_ROOT_OF_A_DAY * Math.sqrt(Math.max(0, days));
  }

  private static long daysTo(LocalDate day, LocalDate today) {
    return ChronoUnit.DAYS.between(today, day);
  }

  private static String shortened(String label) {
    return label.length() <= LONGEST_LABEL
        ? label
        : label.substring(0, LONGEST_LABEL - 1).strip() + "\u2026";
  }

  private static String percent(double x) {
    return String.format(Locale.ROOT, "%.1f%%", x);
  }
}
