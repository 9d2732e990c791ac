package trestle.overview;

import java.util.ArrayList;
import java.util.List;

/**
 * Finds for each label of a horizon the narrowest width at which it fits beside its peg without
 * touching another. From narrow to wide, and from left to right, whoever has a place keeps it:
 * labels stand in the order of their pegs, so that they only move apart as the drawing widens.
 */
final class HorizonLabels {
  /** From the peg to its label, and at least between two labels, in pixels. */
  private static final double GAP = 8;

  private static final double SIZE = 13;

  /** Widths in pixels at which the style sheet shows more; the first is the narrowest there is. */
  private static final int[] WIDTHS = {280, 440, 640, 960};

  /**
   * Advance widths of the characters from the blank to the tilde, in thousandths of the size, as a
   * browser measures Atkinson Hyperlegible Next at weight 400; kerning only narrows them.
   */
  private static final int[] ADVANCE = {
    280, 286, 301, 651, 592, 919, 731, 160, 299, 299, 485, 606, 210, 362, 210, 387, 648, 407, 548,
    576, 614, 588, 598, 510, 615, 595, 210, 210, 553, 628, 553, 480, 778, 626, 613, 645, 669, 569,
    552, 694, 694, 392, 512, 631, 541, 824, 693, 714, 592, 724, 614, 592, 558, 690, 593, 856, 623,
    575, 607, 317, 387, 344, 552, 372, 243, 525, 566, 485, 564, 538, 314, 558, 550, 252, 245, 492,
    262, 845, 550, 548, 566, 574, 349, 471, 326, 540, 461, 684, 481, 449, 460, 344, 237, 344, 555
  };

  private static final int OTHER_ADVANCE = 900;

  /**
   * @param width of the drawing, from which the label shows
   * @param before whether it stands to the left of its peg
   */
  record Placed(int width, boolean before) {

    /** The style that shows it from there on; "" for any width. */
    String style() {
      return width == WIDTHS[0] ? "" : "w" + width;
    }
  }

  private record Label(double x, double length) {
    double start(double width, boolean before) {
      double peg = x / 100 * width;
      return before ? peg - GAP - length : peg + GAP;
    }
  }

  private final List<Label> labels = new ArrayList<>();
  private final List<Placed> places = new ArrayList<>();

  void add(double x, String label) {
    labels.add(new Label(x, length(label)));
    places.add(null);
  }

  void place() {
    for (int width : WIDTHS) {
      for (int i = 0; i < labels.size(); i++) {
        if (places.get(i) == null) {
          places.set(i, placeFor(i, width));
        }
      }
    }
  }

  /** Where the label stands, or null where it never fits. */
  Placed placed(int index) {
    return places.get(index);
  }

  /** The length of a label in pixels, never less than a browser's. */
  static double length(String label) {
    return label.codePoints().map(HorizonLabels::advance).sum() * SIZE / 1000;
  }

  private Placed placeFor(int index, int width) {
    if (isFree(index, width, false)) {
      return new Placed(width, false);
    }
    boolean nearTheEdge =
        labels.get(index).start(width, false) + labels.get(index).length() > width;
    return nearTheEdge && isFree(index, width, true) ? new Placed(width, true) : null;
  }

  private boolean isFree(int index, int width, boolean before) {
    Label label = labels.get(index);
    double start = label.start(width, before);
    double end = start + label.length();
    if (start < 0 || end > width) {
      return false;
    }
    for (int i = 0; i < labels.size(); i++) {
      Placed other = places.get(i);
      if (other != null) {
        double otherStart = labels.get(i).start(width, other.before());
        double otherEnd = otherStart + labels.get(i).length();
        if (i < index ? otherEnd + GAP > start : end + GAP > otherStart) {
          return false;
        }
      }
    }
    return true;
  }

  private static int advance(int character) {
    return character >= ' ' && character <= '~' ? ADVANCE[character - ' '] : OTHER_ADVANCE;
  }
}
