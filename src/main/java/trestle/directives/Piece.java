package trestle.directives;

import java.util.ArrayList;
import java.util.List;

/** One piece of what a directive names: all, one serial number, a run of them, or a beginning. */
sealed interface Piece {

  /** A serial number as recorded, taken apart once and compared with many pieces. */
  record Seen(String plain, String loose, List<SerialNumber> splits) {

    /**
     * @param serial as recorded, or null
     */
    static Seen of(String serial) {
      String plain = serial == null ? "" : SerialNumber.plain(serial);
      return new Seen(
          plain,
          SerialNumber.loose(plain),
          SerialNumber.isUnreadable(plain) ? List.of() : SerialNumber.splits(plain));
    }

    boolean isUnreadable() {
      return splits.isEmpty();
    }
  }

  /** From one number to another, both included. */
  record Numbers(long first, long last) {
    private static final int DIGITS = 18;
    static final List<Numbers> ANY = List.of(new Numbers(0, Long.MAX_VALUE));

    /**
     * @param from null: from the first
     * @param to null: and up
     */
    static List<Numbers> of(String from, String to) {
      long first = from == null ? 0 : value(from);
      return first == Long.MAX_VALUE
          ? List.of()
          : List.of(new Numbers(first, to == null ? Long.MAX_VALUE : value(to)));
    }

    private static long value(String digits) {
      String plain = SerialNumber.withoutZeros(digits);
      return plain.length() > DIGITS ? Long.MAX_VALUE : Long.parseLong(plain);
    }
  }

  Covered covers(Seen seen);

  /** Where the number of a serial lies that has one number, if it may be named by this. */
  List<Numbers> numbers();

  String words();

  /** Whether some serial number may be named by both. */
  boolean meets(Piece other);

  record All() implements Piece {
    @Override
    public Covered covers(Seen seen) {
      return Covered.YES;
    }

    @Override
    public List<Numbers> numbers() {
      return Numbers.ANY;
    }

    @Override
    public String words() {
      return "all";
    }

    @Override
    public boolean meets(Piece other) {
      return true;
    }
  }

  /** Exactly one. */
  record One(SerialNumber serial) implements Piece {
    @Override
    public Covered covers(Seen seen) {
      if (seen.plain().equals(serial.text())) {
        return Covered.YES;
      }
      if (seen.isUnreadable() || seen.loose().equals(SerialNumber.loose(serial.text()))) {
        return Covered.UNREADABLE;
      }
      return serial.digits().isEmpty() ? Covered.NO : asRun().covers(seen);
    }

    private Run asRun() {
      return new Run(serial.before(), serial.digits(), serial.digits(), serial.after());
    }

    /** As the number that is meant, or written together: "10-42" may be a plate that says 1042. */
    @Override
    public List<Numbers> numbers() {
      String together = serial.text().replaceAll("[^0-9]", "");
      List<Numbers> numbers = new ArrayList<>();
      for (String digits : List.of(serial.digits(), together)) {
        if (!digits.isEmpty()) {
          numbers.addAll(Numbers.of(digits, digits));
        }
      }
      return numbers;
    }

    @Override
    public String words() {
      return SerialReader.written(serial.text());
    }

    @Override
    public boolean meets(Piece other) {
      return other instanceof One one
          ? one.serial.equals(serial)
          : serial.digits().isEmpty()
              ? !(other instanceof Run) && other.covers(Seen.of(serial.text())) != Covered.NO
              : asRun().meets(other);
    }
  }

  /**
   * From one number to another, both included, with the same letters before and after.
   *
   * @param from null: from the first
   * @param to null: and up
   */
  record Run(String before, String from, String to, String after) implements Piece {
    @Override
    public Covered covers(Seen seen) {
      if (seen.isUnreadable()) {
        return Covered.UNREADABLE;
      }
      Covered best = Covered.NO;
      for (SerialNumber split : seen.splits()) {
        if (!before.isEmpty() && split.before().equals(before)) {
          return covers(split);
        }
        best = best.or(covers(split));
      }
      return best;
    }

    /** Letters that one of the two lacks may have been left out; others are another series. */
    private Covered covers(SerialNumber number) {
      if (!holds(number.digits())) {
        return Covered.NO;
      }
      String mine = SerialNumber.loose(before);
      String theirs = SerialNumber.loose(number.before());
      if (!mine.isEmpty() && !theirs.isEmpty() && !mine.equals(theirs)) {
        return Covered.NO;
      }
      return number.before().equals(before)
              && number.after().equals(after)
              && writtenAlike(number.digits())
          ? Covered.YES
          : Covered.UNREADABLE;
    }

    private boolean holds(String digits) {
      return (from == null || SerialNumber.compare(from, digits) <= 0)
          && (to == null || SerialNumber.compare(digits, to) <= 0);
    }

    /** "0318" and "318" may be two serial numbers. */
    private boolean writtenAlike(String digits) {
      int width = padded(from) ? from.length() : padded(to) ? to.length() : 0;
      boolean zeros = padded(digits);
      return width == 0 ? !zeros : digits.length() == width || !zeros && digits.length() > width;
    }

    private static boolean padded(String digits) {
      return digits != null && digits.length() > 1 && digits.charAt(0) == '0';
    }

    @Override
    public List<Numbers> numbers() {
      return Numbers.of(from, to);
    }

    @Override
    public String words() {
      if (from == null) {
        return "up to " + end(to);
      }
      return to == null ? end(from) + " and up" : end(from) + " through " + end(to);
    }

    private String end(String digits) {
      return SerialReader.written(before + digits + after);
    }

    @Override
    public boolean meets(Piece other) {
      if (other instanceof Run run) {
        return before.equals(run.before)
            && after.equals(run.after)
            && (to == null || run.from == null || SerialNumber.compare(run.from, to) <= 0)
            && (run.to == null || from == null || SerialNumber.compare(from, run.to) <= 0);
      }
      return other instanceof Beginning beginning
          ? before.startsWith(beginning.prefix) || beginning.prefix.startsWith(before)
          : other.meets(this);
    }
  }

  /** Whatever its number is, if these letters stand before it. */
  record Beginning(String prefix) implements Piece {
    @Override
    public Covered covers(Seen seen) {
      if (seen.isUnreadable()) {
        return Covered.UNREADABLE;
      }
      if (seen.plain().startsWith(prefix)) {
        boolean more =
            seen.plain().length() > prefix.length()
                && Character.isLetter(seen.plain().charAt(prefix.length()))
                && Character.isLetter(prefix.charAt(prefix.length() - 1));
        return more ? Covered.UNREADABLE : Covered.YES;
      }
      boolean perhaps =
          seen.loose().startsWith(SerialNumber.loose(prefix))
              || SerialNumber.isDigit(seen.plain().charAt(0));
      return perhaps ? Covered.UNREADABLE : Covered.NO;
    }

    @Override
    public List<Numbers> numbers() {
      return Numbers.ANY;
    }

    @Override
    public String words() {
      return "prefix " + SerialReader.writtenPrefix(prefix);
    }

    @Override
    public boolean meets(Piece other) {
      return other instanceof Beginning beginning
          ? prefix.startsWith(beginning.prefix) || beginning.prefix.startsWith(prefix)
          : other.meets(this);
    }
  }
}
