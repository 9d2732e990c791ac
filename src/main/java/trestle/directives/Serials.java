package trestle.directives;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * The serial numbers that a directive names, as people write them: "1001 through 1475 except 1130",
 * "all", "prefix K 200 and up", "1001, 1003 and 1010 to 1020". {@link #words} says it back, and
 * {@link #parse} reads that to an equal value.
 *
 * <p>The letters before a number are part of it: K200 is not named by "M100 through M300". But a
 * serial number that can't be read, that lacks letters or has some that the text lacks, or that is
 * written otherwise ("318" for "0318", "1130A" for "1130") is {@link Covered#UNREADABLE}, never a
 * no: somebody has to look at the plate. No source; common practice.
 *
 * @param groups each with its own exceptions
 */
public record Serials(List<Group> groups) {
  public static final Serials ALL =
      new Serials(List.of(new Group(List.of(new Piece.All()), List.of())));

  /** What is named together, less what is left out of it. */
  record Group(List<Piece> named, List<Piece> except) {
    Group {
      named = List.copyOf(named);
      except = List.copyOf(except);
    }

    private Covered covers(Piece.Seen seen) {
      return any(named, seen).and(any(except, seen).not());
    }

    private static Covered any(List<Piece> pieces, Piece.Seen seen) {
      Covered found = Covered.NO;
      for (Piece piece : pieces) {
        found = found.or(piece.covers(seen));
      }
      return found;
    }

    private String words() {
      return except.isEmpty() ? list(named) : list(named) + " except " + list(except);
    }

    private static String list(List<Piece> pieces) {
      String most =
          pieces.subList(0, pieces.size() - 1).stream()
              .map(Piece::words)
              .collect(Collectors.joining(", "));
      String last = pieces.get(pieces.size() - 1).words();
      return most.isEmpty() ? last : most + " and " + last;
    }
  }

  /** Groups that leave nothing out say the same together as apart. */
  public Serials {
    if (groups.isEmpty()) {
      throw new IllegalArgumentException("must name at least one serial number, or say all");
    }
    List<Group> joined = new ArrayList<>();
    for (Group group : groups) {
      Group last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      if (last != null && last.except().isEmpty() && group.except().isEmpty()) {
        List<Piece> both = new ArrayList<>(last.named());
        both.addAll(group.named());
        joined.set(joined.size() - 1, new Group(both, List.of()));
      } else {
        joined.add(group);
      }
    }
    groups = List.copyOf(joined);
  }

  /**
   * @throws IllegalArgumentException saying which piece can't be read, as the end of a sentence
   *     that begins with the field's label
   */
  public static Serials parse(String written) {
    return new SerialReader(written).serials();
  }

  /**
   * Whether a serial number is among them.
   *
   * @param serial as recorded; null or blank where none is
   */
  public Covered covers(String serial) {
    Piece.Seen seen = Piece.Seen.of(serial);
    Covered found = Covered.NO;
    for (Group group : groups) {
      found = found.or(group.covers(seen));
    }
    return found;
  }

  /**
   * The runs in which the number of a serial lies that may be named, if it is letters around one
   * number of at most 18 digits; in order and apart. So that of very many only those are looked at:
   * all that {@link #covers} does not answer no to, and some more.
   */
  List<Piece.Numbers> numbers() {
    List<Piece.Numbers> all =
        groups.stream()
            .flatMap(group -> group.named().stream())
            .flatMap(piece -> piece.numbers().stream())
            .sorted(Comparator.comparingLong(Piece.Numbers::first))
            .toList();
    List<Piece.Numbers> apart = new ArrayList<>();
    for (Piece.Numbers next : all) {
      Piece.Numbers last = apart.isEmpty() ? null : apart.get(apart.size() - 1);
      if (last != null && next.first() <= last.last()) {
        long end = Math.max(last.last(), next.last());
        apart.set(apart.size() - 1, new Piece.Numbers(last.first(), end));
      } else {
        apart.add(next);
      }
    }
    return apart;
  }

  /**
   * The {@link #numbers} cut wherever a piece begins or ends. Whoever has one number within one of
   * these, written with the same letters around it, as many digits and zeros, is answered alike.
   */
  List<Piece.Numbers> stretches() {
    TreeSet<Long> cuts = new TreeSet<>();
    pieces()
        .flatMap(piece -> piece.numbers().stream())
        .forEach(
            run -> {
              cuts.add(run.first());
              if (run.last() < Long.MAX_VALUE) {
                cuts.add(run.last() + 1);
              }
            });
    List<Piece.Numbers> stretches = new ArrayList<>();
    for (Piece.Numbers run : numbers()) {
      long first = run.first();
      for (long cut : cuts.subSet(first, false, run.last(), true)) {
        stretches.add(new Piece.Numbers(first, cut - 1));
        first = cut;
      }
      stretches.add(new Piece.Numbers(first, run.last()));
    }
    return stretches;
  }

  /** Unless a beginning has digits of its own: then each is to be looked at. */
  boolean tellsByStretches() {
    return pieces()
        .noneMatch(
            piece ->
                piece instanceof Piece.Beginning beginning
                    && beginning.prefix().chars().anyMatch(c -> SerialNumber.isDigit((char) c)));
  }

  private Stream<Piece> pieces() {
    return groups.stream()
        .flatMap(group -> Stream.concat(group.named().stream(), group.except().stream()));
  }

  public boolean isAll() {
    return equals(ALL);
  }

  /** "1001 through 1475 except 1130". */
  public String words() {
    return groups.stream().map(Group::words).collect(Collectors.joining("; "));
  }

  @Override
  public String toString() {
    return words();
  }
}
