package trestle.directives;

import java.util.ArrayList;
import java.util.List;
import trestle.fleet.Named;

/**
 * A paragraph over the whole fleet and the shelf.
 *
 * @param lines of aircraft, and of the parts that had a closer look
 */
record Surveyed(
    DirectiveSheet directive,
    ParagraphSheet paragraph,
    List<Status.Line> lines,
    Unjudged unjudged) {

  static Surveyed of(DirectiveSheet directive, ParagraphSheet paragraph) {
    return new Surveyed(directive, paragraph, new ArrayList<>(), Unjudged.none());
  }

  boolean ofComponents() {
    return paragraph.applicability().ofComponents();
  }

  boolean covers(Named.Part part) {
    return covers(part.partNumber(), part.serial());
  }

  boolean covers(String partNumber, String serial) {
    return paragraph.applicability().covers(partNumber, serial) != Covered.NO;
  }

  boolean depends() {
    return !paragraph.modification().isEmpty();
  }

  /** Whether the database may count for it. */
  boolean counted() {
    return !depends() && paragraph.applicability().serials().tellsByStretches();
  }

  /** In order: what is to be assessed stands first, what was never judged last of it. */
  Sorted sorted(Judged.State only) {
    List<Status.Line> open = new ArrayList<>();
    List<Status.Line> rest = new ArrayList<>();
    for (Status.Line line : lines) {
      if (only == null || only == line.judged().state()) {
        (line.toBeAssessed() ? open : rest).add(line);
      }
    }
    boolean all = only == null || only == Judged.State.TO_BE_ASSESSED;
    return new Sorted(this, open, all ? unjudged.many() : 0, rest);
  }

  record Sorted(Surveyed of, List<Status.Line> open, int unjudged, List<Status.Line> rest) {

    int rows() {
      return open.size() + unjudged + rest.size();
    }

    /** Its rows from one to another; either may lie outside. */
    Slice slice(int from, int to) {
      int before = open.size() + unjudged;
      return new Slice(
          of,
          within(open, from, to),
          Math.min(Math.max(from - open.size(), 0), unjudged),
          Math.min(Math.max(to - open.size(), 0), unjudged),
          within(rest, from - before, to - before));
    }

    private static <T> List<T> within(List<T> list, int from, int to) {
      int size = list.size();
      return list.subList(Math.min(Math.max(from, 0), size), Math.min(Math.max(to, 0), size));
    }
  }

  /** What is shown; of the parts that nobody judged those from one to another. */
  record Slice(Surveyed of, List<Status.Line> open, int from, int to, List<Status.Line> rest) {

    boolean hasUnjudged() {
      return from < to;
    }
  }
}
