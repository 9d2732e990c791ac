package trestle.directives;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Named;
import trestle.fleet.Stretch;

/**
 * Whom a paragraph is about: aircraft of these types, or parts of these part numbers, with these
 * serial numbers.
 *
 * @param names types or part numbers as printed; at least one
 */
public record Applicability(About about, List<String> names, Serials serials) {

  /** What the serial numbers are of. */
  public enum About {
    AIRCRAFT,
    COMPONENT;

    public String word() {
      return name().toLowerCase(Locale.ROOT);
    }

    public static About parse(String word) {
      return valueOf(word.toUpperCase(Locale.ROOT));
    }
  }

  public Applicability {
    names = names.stream().map(String::strip).filter(name -> !name.isEmpty()).distinct().toList();
    if (names.isEmpty()) {
      throw new IllegalArgumentException("must name at least one type or part number");
    }
  }

  public static Applicability ofTypes(String serials, String... types) {
    return new Applicability(About.AIRCRAFT, List.of(types), Serials.parse(serials));
  }

  public static Applicability ofParts(String serials, String... partNumbers) {
    return new Applicability(About.COMPONENT, List.of(partNumbers), Serials.parse(serials));
  }

  public boolean ofComponents() {
    return about == About.COMPONENT;
  }

  /**
   * Whether an aircraft or a part is among them. A name that differs only in blanks and hyphens may
   * be the same one: that is for a person to say.
   *
   * @param name its type or part number
   * @param serial as recorded; null or blank where none is
   */
  public Covered covers(String name, String serial) {
    Covered named = named(name);
    return named == Covered.NO ? Covered.NO : named.and(serials.covers(serial));
  }

  private Covered named(String name) {
    Covered found = Covered.NO;
    for (String one : names) {
      if (one.equalsIgnoreCase(name.strip())) {
        return Covered.YES;
      }
      if (key(one).equals(key(name))) {
        found = Covered.UNREADABLE;
      }
    }
    return found;
  }

  /** What two writings of one type or part number have in common. */
  public static String key(String name) {
    return ComponentSheet.partKey(name);
  }

  List<String> keys() {
    return names.stream().map(Applicability::key).distinct().toList();
  }

  /** Where to look for the parts that it may be about; {@link #covers} then tells. */
  List<Named> named() {
    List<Named> named = new ArrayList<>();
    for (String key : keys()) {
      // None by its number, and still those whose serial can't be told by one.
      named.add(Named.byNoNumber(key));
      for (Piece.Numbers run : serials.numbers()) {
        named.add(new Named(key, run.first(), run.last()));
      }
    }
    return named;
  }

  /**
   * Where to count the parts that it may be about, and tell of one for all that are written alike.
   *
   * @param whose question it is
   */
  List<Stretch> stretches(UUID whose) {
    List<Stretch> stretches = new ArrayList<>();
    for (String key : keys()) {
      if (serials.isAll()) {
        stretches.add(Stretch.all(whose, key));
      } else {
        for (Piece.Numbers run : serials.stretches()) {
          stretches.add(Stretch.between(whose, key, run.first(), run.last()));
        }
      }
    }
    return stretches;
  }

  /** "Part MG-4310 or MG-4311, serials 1001 through 1475 except 1130". */
  public String words() {
    List<String> all = new ArrayList<>(names);
    String last = all.remove(all.size() - 1);
    String named = all.isEmpty() ? last : String.join(", ", all) + " or " + last;
    return (ofComponents() ? "Part " : "Type ") + named + serialWords();
  }

  private String serialWords() {
    if (serials.isAll()) {
      return ", all serials";
    }
    String words = serials.words();
    String all = "all except ";
    return words.startsWith(all)
        ? ", all serials except " + words.substring(all.length())
        : ", serials " + words;
  }
}
