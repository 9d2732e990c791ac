package trestle.overview;

import java.time.LocalDate;
import trestle.web.Shown;

/**
 * One item on the horizon.
 *
 * @param on the day it stands at; today for what is past due
 * @param past whether it is past due
 * @param weight "held", "limited" or "": how it is coloured, besides what its shape says
 * @param about when, in words
 * @param earliest and {@code latest} are where it falls in nine cases of ten; null where not known
 */
record Peg(
    String label,
    LocalDate on,
    boolean past,
    Shape shape,
    String weight,
    String about,
    LocalDate earliest,
    LocalDate latest) {

  /** What makes it fall due; each with a head of its own on a common stem, around its place. */
  enum Shape {
    USE("M-1 20h2v20h-2zM-4.5 20a4.5 4.5 0 1 1 9 0a4.5 4.5 0 1 1-9 0z"),
    DATE("M-1 20h2v20h-2zM-4.5 15.5h9v9h-9z"),
    DEFERRAL("M-1 20h2v20h-2zM-5.5 25l5.5-10l5.5 10z");

    private final String path;

    Shape(String path) {
      this.path = path;
    }
  }

  /** One of which no spread is known. */
  Peg(String label, LocalDate on, boolean past, Shape shape, String weight, String about) {
    this(label, on, past, shape, weight, about, null, null);
  }

  /** The same, told in words too, where it falls between two days in nine cases of ten. */
  Peg between(LocalDate first, LocalDate last) {
    if (first == null || last == null) {
      return this;
    }
    String words =
        about + ", in nine cases of ten " + Shown.day(first, on) + " to " + Shown.day(last, on);
    return new Peg(label, on, past, shape, weight, words, first, last);
  }

  public String path() {
    return shape.path;
  }
}
