package trestle.defects;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Finding a system by plain words. Numbers and titles: FAA, Joint Aircraft System/Component Code
 * Table and Definitions, 27 October 2008, and ATA 100 for those below 11; the words are our own.
 */
class ChaptersTest {
  @ParameterizedTest
  @CsvSource({
    "alternator, 24",
    "Alternator, 24",
    "ALTERNATORS, 24",
    "24, 24",
    "2434, 24",
    "24 Electrical power, 24",
    "battery, 24",
    "brake, 32",
    "tyre, 32",
    "flap, 27",
    "magneto, 74",
    "mag drop, 74",
    "oil pressure, 79",
    "compass, 34",
    "radio, 23",
    "seat belt, 25",
    "propeller, 61",
    "starter, 80",
    "vacuum pump, 37",
    "pitot heat, 30",
    "cylinder, 85",
  })
  void aPlainWordFindsItsChapter(String asked, String chapter) {
    assertThat(Chapters.search(asked).get(0).code()).isEqualTo(chapter);
    assertThat(Chapters.meant(asked)).extracting(Chapter::code).containsExactly(chapter);
  }

  @Test
  void aWordThatMayMeanSeveralIsAskedAbout() {
    assertThat(Chapters.meant("pump")).hasSizeGreaterThan(2);
    assertThat(Chapters.meant("gauge")).hasSizeGreaterThan(1);
  }

  @Test
  void whatNobodyCallsAnythingFindsNothing() {
    assertThat(Chapters.meant("flux")).isEmpty();
    assertThat(Chapters.meant("")).isEmpty();
    assertThat(Chapters.meant("99")).isEmpty();
    assertThat(Chapters.meant("<script>")).isEmpty();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "Alternator light flickered twice in the climb, volts steady. | 24",
        "left brake soft after landing | 32",
        "Oil pressure low at idle | 79",
        "MAG DROP 200 on the left | 74",
        "Rough when cold | ''",
        "strange noise | ''"
      })
  void theWordsOfAReportNameASystemWhereTheyDo(String words, String chapter) {
    assertThat(Chapters.namedBy(words).map(Chapter::code).orElse("")).isEqualTo(chapter);
  }

  @Test
  void everyChapterIsThereOnce() {
    List<String> codes = Chapters.all().stream().map(Chapter::code).toList();
    assertThat(codes).doesNotHaveDuplicates().isSorted().allMatch(code -> code.matches("\\d\\d"));
    assertThat(codes).contains("05", "12", "24", "28", "32", "61", "74", "79", "85");
    assertThat(Chapters.all()).allMatch(chapter -> !chapter.words().isEmpty());
  }
}
