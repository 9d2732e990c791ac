package trestle.defects;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.text.Normalizer;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

/**
 * The chapters by which defects are sorted: the two-digit numbers of ATA 100 as the Joint Aircraft
 * System/Component Code table publishes them (FAA, 2008), each with plain words of our own by which
 * people find it.
 */
public final class Chapters {
  private static final List<Chapter> ALL = read();
  private static final int EXACT = 4;

  private Chapters() {}

  private record Match(Chapter chapter, int strength) {}

  public static List<Chapter> all() {
    return ALL;
  }

  public static Optional<Chapter> find(String code) {
    return ALL.stream().filter(chapter -> chapter.code().equals(code)).findFirst();
  }

  /** "24 Electrical power", or "" of none. */
  public static String label(String code) {
    return find(code).map(Chapter::label).orElse("");
  }

  /**
   * The chapters that somebody's words may mean, the likeliest first: "alternator", "24", "elec".
   */
  public static List<Chapter> search(String asked) {
    String typed = plain(asked);
    if (typed.isEmpty()) {
      return List.of();
    }
    Optional<Chapter> byCode = find(typed.length() >= 2 ? typed.substring(0, 2) : typed);
    if (byCode.isPresent() && typed.matches("\\d\\d( .*|\\d\\d)?")) {
      return List.of(byCode.get());
    }
    return matches(typed).stream().map(Match::chapter).toList();
  }

  /**
   * As {@link #search}, but only the one chapter where one alone has a part of exactly that name.
   */
  public static List<Chapter> meant(String asked) {
    List<Match> exact =
        matches(plain(asked)).stream().filter(match -> match.strength() == EXACT).toList();
    return exact.size() == 1 ? List.of(exact.get(0).chapter()) : search(asked);
  }

  /** The one chapter that a description names by its parts; none where it names two alike. */
  static Optional<Chapter> namedBy(String words) {
    String text = " " + plain(words) + " ";
    List<Match> named =
        ALL.stream()
            .map(chapter -> new Match(chapter, longestNamed(chapter, text)))
            .filter(match -> match.strength() > 0)
            .sorted(Comparator.comparingInt(Match::strength).reversed())
            .toList();
    boolean clear =
        named.size() == 1 || named.size() > 1 && named.get(0).strength() > named.get(1).strength();
    return clear ? Optional.of(named.get(0).chapter()) : Optional.empty();
  }

  /** Of several, "alternators", as of one. */
  private static List<Match> matches(String typed) {
    if (typed.isEmpty()) {
      return List.of();
    }
    List<Match> matches = matchesOf(typed);
    boolean several = matches.isEmpty() && typed.length() > 3 && typed.endsWith("s");
    return several ? matchesOf(typed.substring(0, typed.length() - 1)) : matches;
  }

  private static List<Match> matchesOf(String typed) {
    return ALL.stream()
        .map(chapter -> new Match(chapter, strength(chapter, typed)))
        .filter(match -> match.strength() > 0)
        .sorted(Comparator.comparingInt(Match::strength).reversed())
        .toList();
  }

  /** A word of its own over the beginning of one, and either over words in the midst of others. */
  private static int strength(Chapter chapter, String typed) {
    String title = plain(chapter.title());
    int strongest = title.equals(typed) ? EXACT : title.startsWith(typed) ? 3 : 0;
    for (String word : chapter.words()) {
      String plain = plain(word);
      int own = 0;
      if (plain.equals(typed)) {
        own = EXACT;
      } else if (plain.startsWith(typed)) {
        own = 2;
      } else if ((" " + plain).contains(" " + typed)
          || (" " + typed + " ").contains(" " + plain + " ")) {
        own = 1;
      }
      strongest = Math.max(strongest, own);
    }
    return strongest;
  }

  private static int longestNamed(Chapter chapter, String text) {
    return chapter.words().stream()
        .map(Chapters::plain)
        .filter(word -> text.contains(" " + word + " ") || text.contains(" " + word + "s "))
        .mapToInt(String::length)
        .max()
        .orElse(0);
  }

  private static String plain(String text) {
    return Normalizer.normalize(text, Normalizer.Form.NFKD)
        .toLowerCase(Locale.ROOT)
        .replaceAll("\\p{M}", "")
        .replaceAll("[^a-z0-9]+", " ")
        .strip();
  }

  private static List<Chapter> read() {
    List<Chapter> all = new ArrayList<>();
    try (InputStream file = Chapters.class.getResourceAsStream("/defects/chapters.tsv");
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(file, StandardCharsets.UTF_8))) {
      lines
          .lines()
          .map(line -> line.split("\t"))
          .forEach(
              cells -> all.add(new Chapter(cells[0], cells[1], List.of(cells[2].split(", ")))));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return List.copyOf(all);
  }
}
