package trestle.directives;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.NullSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Serial numbers as people write them. No source: common practice. */
class SerialsTest {

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          all                                        | all
          All serials                                | all
          all except 1130                            | all except 1130
          1001 through 1475 except 1130              | 1001 through 1475 except 1130
          1001 thru 1475, excluding 1130 and 1140    | 1001 through 1475 except 1130 and 1140
          Serial numbers 1001 to 1475 inclusive.     | 1001 through 1475
          1001 – 1475                                | 1001 through 1475
          1001–1475                                  | 1001 through 1475
          1001 - 1475                                | 1001 through 1475
          between 1001 and 1475                      | 1001 through 1475
          prefix K 200 and up                        | K200 and up
          K200 and subsequent                        | K200 and up
          K200 onwards                               | K200 and up
          from k200                                  | K200 and up
          prefix K 200 through 350                   | K200 through K350
          K200 to 350                                | K200 through K350
          prefix K                                   | prefix K
          up to and including 350                    | up to 350
          350 and prior                              | up to 350
          1001, 1003 and 1010 to 1020                | 1001, 1003 and 1010 through 1020
          1001, 1003, and 1010 to 1020               | 1001, 1003 and 1010 through 1020
          1001 and up to 900                         | 1001 and up to 900
          S4-0318                                    | S4-0318
          VT-3100 through VT-3199                    | VT-3100 through VT-3199
          200A through 350A                          | 200A through 350A
          “18-1234”                                  | “18-1234”
          1001; 1003                                 | 1001 and 1003
          1 to 9 except 3; 20 and up except 25       | 1 through 9 except 3; 20 and up except 25
          1001 through 1475, but not 1130            | 1001 through 1475 except 1130
          """)
  void whatIsWrittenIsShownBackInWords(String written, String words) {
    assertThat(Serials.parse(written).words()).isEqualTo(words);
    assertThat(Serials.parse(words)).isEqualTo(Serials.parse(written));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          1001 through banana           | “banana”
          1475 through 1001             | “1475 through 1001”: it runs backwards
          K200 through M300             | “K200 through M300”: both ends must have the same letters
          200A through 350              | “200A through 350”: both ends must have the same letters
          1001-1475                     | “1001-1475”: it may be one serial number or a run
          VT-3107-VT-3200               | “VT-3107-VT-3200”: it may be one serial number or a run
          1,001 through 1,475           | “1,001”: it may be one number or several
          K 200 and up                  | “K”: for letters before a number write “prefix K 200”
          1001 through                  | “through”: a serial number is missing after it
          1001 1003                     | “1003”: put a comma
          1 to 9 except 12              | “12”: after “except” it leaves out nothing
          1 to 9 except 3, 20 to 30     | “20 through 30”: after “except” it leaves out nothing
          all except all                | “all”: after “except” it leaves out nothing
          prefix                        | say which letters
          1001 and “1003                | the quotation mark has no other
          all, and                      | “and”: a serial number is missing after it
          prefix S4 0318                | put the mark that stands between into the prefix
          """)
  void theSentenceSaysWhichPieceCantBeRead(String written, String says) {
    assertThatThrownBy(() -> Serials.parse(written))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("can’t be read at ")
        .hasMessageContaining(says);
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "   "})
  void nothingIsNotAll(String written) {
    assertThatThrownBy(() -> Serials.parse(written)).hasMessageContaining("or say all");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      textBlock =
          """
          1001 through 1475 except 1130 | 1001     | YES
          1001 through 1475 except 1130 | 1475     | YES
          1001 through 1475 except 1130 | S/N 1100 | YES
          1001 through 1475 except 1130 | 1130     | NO
          1001 through 1475 except 1130 | 1476     | NO
          1001 through 1475 except 1130 | 1130A    | UNREADABLE
          1001 through 1475 except 1130 | 1100-1   | UNREADABLE
          1001 through 1475 except 1130 | K1100    | UNREADABLE
          1001 through 1475 except 1130 | 01100    | UNREADABLE
          1001 through 1475 except 1130 | K2000    | NO
          1001 through 1475             | 11?0     | UNREADABLE
          1001 through 1475             | unknown  | UNREADABLE
          1001 through 1475             | n/a      | UNREADABLE
          1001 through 1475             | 1042/1043| UNREADABLE
          K200 and up                   | K200     | YES
          K200 and up                   | k 201    | UNREADABLE
          K200 and up                   | K-201    | UNREADABLE
          K200 and up                   | K199     | NO
          K200 and up                   | M900     | NO
          K200 and up                   | 900      | UNREADABLE
          K200 and up                   | K99999999999999999999999 | YES
          up to K350                    | K1       | YES
          up to K350                    | K351     | NO
          prefix K                      | K7       | YES
          prefix K                      | K-7      | YES
          prefix K                      | KA7      | UNREADABLE
          prefix K                      | M7       | NO
          prefix K                      | 7        | UNREADABLE
          0301 through 0500             | S4-0318  | UNREADABLE
          S4-0301 through S4-0500       | S4-0318  | YES
          S4-0301 through S4-0500       | S4-318   | UNREADABLE
          S4-0301 through S4-0500       | S4-0501  | NO
          VT-3100 through VT-3199       | VT-3107  | YES
          VT-3100 through VT-3199       | VS-3107  | NO
          1001, 1003 and 1010 to 1020   | 1003     | YES
          1001, 1003 and 1010 to 1020   | 1002     | NO
          “18-1234”                     | 18-1234  | YES
          “18-1234”                     | 18-1235  | NO
          all                           | ?        | YES
          all except 1130               | 1130     | NO
          all except 1130               | ?        | UNREADABLE
          1 to 9 except 3; 3            | 3        | YES
          200A through 350A             | 210A     | YES
          200A through 350A             | 210B     | UNREADABLE
          """)
  void whoIsNamed(String written, String serial, Covered covered) {
    assertThat(Serials.parse(written).covers(serial)).isEqualTo(covered);
  }

  @ParameterizedTest
  @NullSource
  @ValueSource(strings = {"", "  ", "?", "-", "not known", "illegible", "ABC", "12*4"})
  void aSerialThatIsMissingOrUnreadableIsNeverANo(String serial) {
    for (String written : List.of("1001 through 1475", "K200 and up", "7", "prefix K", "up to 3")) {
      assertThat(Serials.parse(written).covers(serial)).as(written).isEqualTo(Covered.UNREADABLE);
    }
  }

  @ParameterizedTest
  @CsvSource({
    "MG-4310, 1100, YES",
    "mg-4310, 1100, YES",
    "MG 4310, 1100, UNREADABLE",
    "MG4310, 1130, NO",
    "MG-4310, , UNREADABLE",
    "MG-4311, 1100, YES",
    "MG-4312, 1100, NO",
    "MG-4312, , NO"
  })
  void partNumbersAndSerials(String part, String serial, Covered covered) {
    Applicability magnetos =
        Applicability.ofParts("1001 through 1475 except 1130", "MG-4310", "MG-4311");
    assertThat(magnetos.covers(part, serial)).isEqualTo(covered);
    assertThat(magnetos.words())
        .isEqualTo("Part MG-4310 or MG-4311, serials 1001 through 1475 except 1130");
  }

  /** Whatever is meant, it is read back from its words as the same. */
  @Property
  void wordsAreReadBackToAnEqualValue(@ForAll("serials") Serials serials) {
    assertThat(Serials.parse(serials.words())).isEqualTo(serials);
  }

  /** Whatever is named by its number is told from its neighbours. */
  @Property
  void endsAreIncludedAndNeighboursAreNot(
      @ForAll("prefixes") String prefix, @ForAll("numbers") int from, @ForAll("numbers") int more) {
    int to = from + more;
    Serials run = Serials.parse(prefix + from + " through " + prefix + to);
    assertThat(run.covers(prefix + from)).isEqualTo(Covered.YES);
    assertThat(run.covers(prefix + to)).isEqualTo(Covered.YES);
    assertThat(run.covers(prefix + (to + 1))).isEqualTo(Covered.NO);
    assertThat(run.covers(prefix + (from - 1))).isEqualTo(Covered.NO);
  }

  /** So that of very many the database may leave the others out. */
  @Property
  void whoseNumberIsNotAmongTheNumbersIsNotNamed(
      @ForAll("serials") Serials serials, @ForAll("plates") String plate) {
    String digits = plate.replaceAll("[^0-9]", "");
    boolean oneNumber = plate.matches("[A-Za-z ./#()-]*[0-9]{1,18}[A-Za-z ./#()-]*");
    if (oneNumber && !plate.contains("UNKNOWN")) {
      long number = Long.parseLong(digits);
      if (serials.numbers().stream()
          .noneMatch(run -> run.first() <= number && number <= run.last())) {
        assertThat(serials.covers(plate)).isEqualTo(Covered.NO);
      }
    }
  }

  /** So that of very many one may answer for all. */
  @Property
  void whoIsWrittenAlikeWithinOneStretchIsAnsweredAlike(
      @ForAll("serials") Serials serials,
      @ForAll("letters") String before,
      @ForAll("letters") String after,
      @ForAll("close") int one,
      @ForAll("close") int other) {
    int zeros = Math.floorMod(one, 3);
    String serial = before + "0".repeat(zeros) + one + after;
    String alike = before + "0".repeat(zeros) + other + after;
    boolean together =
        serial.length() == alike.length()
            && serials.stretches().stream()
                .anyMatch(run -> isWithin(run, one) && isWithin(run, other));
    if (together && serials.tellsByStretches()) {
      assertThat(serials.covers(alike)).isEqualTo(serials.covers(serial));
    }
  }

  private static boolean isWithin(Piece.Numbers run, long number) {
    return run.first() <= number && number <= run.last();
  }

  /** Together the stretches are the numbers, each once. */
  @Property
  void stretchesLeaveNoNumberOut(@ForAll("serials") Serials serials) {
    List<Piece.Numbers> joined = new ArrayList<>();
    for (Piece.Numbers next : serials.stretches()) {
      Piece.Numbers last = joined.isEmpty() ? null : joined.get(joined.size() - 1);
      assertThat(next.first()).isLessThanOrEqualTo(next.last());
      boolean touches =
          last != null
              && last.last() + 1 == next.first()
              && serials.numbers().stream()
                  .anyMatch(run -> isWithin(run, last.last()) && isWithin(run, next.first()));
      if (touches) {
        joined.set(joined.size() - 1, new Piece.Numbers(last.first(), next.last()));
      } else {
        joined.add(next);
      }
    }
    assertThat(joined).isEqualTo(serials.numbers());
  }

  @Property
  void garbageIsReadOrRefusedButNeverFails(@ForAll("garbage") String written) {
    try {
      Serials read = Serials.parse(written);
      assertThat(Serials.parse(read.words())).isEqualTo(read);
    } catch (IllegalArgumentException e) {
      assertThat(e.getMessage()).containsAnyOf("can’t be read at “", "must name");
    }
  }

  @Provide
  Arbitrary<String> prefixes() {
    return Arbitraries.of("", "K", "VT-", "S4-", "AB.", "9/");
  }

  @Provide
  Arbitrary<String> plates() {
    return Combinators.combine(
            Arbitraries.of("", "K", "VT-", "A B ", "S/N ", "K-2-", "18-", "(", "UNKNOWN "),
            Arbitraries.of("0", "7", "12", "007", "318", "0318", "1001", "1818", "187", "27"),
            Arbitraries.of("", "", "A", "-", " X", "/B", "-1"))
        .as((before, digits, after) -> before + digits + after);
  }

  @Provide
  Arbitrary<String> letters() {
    return Arbitraries.of("", "", "K", "k", "VT-", "A B ", "S/N ", "S-", "A", "/B", "(", "Kk", ".");
  }

  @Provide
  Arbitrary<Integer> close() {
    return Arbitraries.of(0, 1, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 17, 187, 317, 318, 319, 1001);
  }

  @Provide
  Arbitrary<Integer> numbers() {
    return Arbitraries.integers().between(1, 100_000);
  }

  @Provide
  Arbitrary<String> garbage() {
    return Arbitraries.of(
            "1001",
            "K200",
            "and",
            "or",
            "up",
            "to",
            "through",
            "-",
            "–",
            ",",
            ";",
            "except",
            "prefix",
            "K",
            "all",
            "from",
            "between",
            "“A 1”",
            "“",
            "1,001",
            "S4-0318",
            "18-20",
            "serials",
            "no.",
            "but",
            "not",
            "inclusive",
            "down",
            "200A",
            "0007")
        .list()
        .ofMinSize(1)
        .ofMaxSize(9)
        .map(words -> String.join(" ", words));
  }

  @Provide
  Arbitrary<Serials> serials() {
    return groups().list().ofMinSize(1).ofMaxSize(3).map(Serials::new);
  }

  private Arbitrary<Serials.Group> groups() {
    return Combinators.combine(
            pieces().list().ofMinSize(1).ofMaxSize(4), pieces().list().ofMaxSize(3))
        .as(
            (named, except) -> {
              List<Piece> meeting = new ArrayList<>(except);
              meeting.removeIf(
                  piece -> piece instanceof Piece.All || named.stream().noneMatch(piece::meets));
              return new Serials.Group(named, meeting);
            });
  }

  private Arbitrary<Piece> pieces() {
    Arbitrary<String> before =
        Arbitraries.of("", "K", "VT-", "S4-", "18-", "A B ", "NO", "UP", "7/", "Ø", "(", "K-2-");
    Arbitrary<String> after = Arbitraries.of("", "", "", "A", "-", ".", " X", "/B");
    Arbitrary<String> digits =
        Arbitraries.of("0", "7", "12", "007", "0318", "1001", "99999999999999999999999");
    Arbitrary<Piece> one =
        Combinators.combine(before, digits, after)
            .as((b, d, a) -> new Piece.One(SerialNumber.of(b + d + a)));
    Arbitrary<Piece> word =
        Arbitraries.of("ALPHA", "THROUGH", "K", "ALL").map(w -> new Piece.One(SerialNumber.of(w)));
    Arbitrary<Piece> run =
        Combinators.combine(before, digits, digits, after)
            .as(
                (b, one1, two, a) ->
                    SerialNumber.compare(one1, two) <= 0
                        ? new Piece.Run(b, one1, two, a)
                        : new Piece.Run(b, two, one1, a));
    Arbitrary<Piece> open =
        Combinators.combine(before, digits, after, Arbitraries.of(true, false))
            .as((b, d, a, up) -> new Piece.Run(b, up ? d : null, up ? null : d, a));
    Arbitrary<Piece> beginning =
        Arbitraries.of("K", "VT-", "S4-", "THROUGH", "A B", "AND", "X.").map(Piece.Beginning::new);
    return Arbitraries.oneOf(one, run, open, beginning, word, Arbitraries.just(new Piece.All()));
  }
}
