package trestle.formats;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** RFC 8785's own examples, of both writers; then both beside each other. */
class CanonicalJsonTest {

  /** RFC 8785, 3.2.2. */
  @Test
  void theRfcsSampleIsWrittenAsItSays() {
    both(
        """
        {
          "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
          "string": "\\u20ac$\\u000F\\u000aA'\\u0042\\u0022\\u005c\\\\\\"\\/",
          "literals": [null, true, false]
        }
        """,
        "{\"literals\":[null,true,false],\"numbers\":[333333333.3333333,1e+30,4.5,0.002,1e-27],"
            + "\"string\":\"€$\\u000f\\nA'B\\\"\\\\\\\\\\\"/\"}");
  }

  /** RFC 8785, 3.2.3: by UTF-16 units, so that the emoji stands before the Hebrew letter. */
  @Test
  void namesAreSortedAsTheRfcSays() {
    both(
        """
        {
          "\\u20ac": "Euro Sign",
          "\\r": "Carriage Return",
          "\\ufb33": "Hebrew Letter Dalet With Dagesh",
          "1": "One",
          "\\ud83d\\ude00": "Emoji: Grinning Face",
          "\\u0080": "Control",
          "\\u00f6": "Latin Small Letter O With Diaeresis"
        }
        """,
        "{\"\\r\":\"Carriage Return\",\"1\":\"One\",\"\u0080\":\"Control\","
            + "\"ö\":\"Latin Small Letter O With Diaeresis\",\"€\":\"Euro Sign\","
            + "\"\ud83d\ude00\":\"Emoji: Grinning Face\","
            + "\"\ufb33\":\"Hebrew Letter Dalet With Dagesh\"}");
  }

  /** RFC 8785, appendix B: the bits of a double, and how it is written. */
  @Test
  void numbersAreWrittenAsTheRfcSays() {
    String[][] samples = {
      {"0000000000000000", "0"},
      {"8000000000000000", "0"},
      {"0000000000000001", "5e-324"},
      {"8000000000000001", "-5e-324"},
      {"7fefffffffffffff", "1.7976931348623157e+308"},
      {"ffefffffffffffff", "-1.7976931348623157e+308"},
      {"4340000000000000", "9007199254740992"},
      {"c340000000000000", "-9007199254740992"},
      {"4430000000000000", "295147905179352830000"},
      {"44b52d02c7e14af5", "9.999999999999997e+22"},
      {"44b52d02c7e14af6", "1e+23"},
      {"44b52d02c7e14af7", "1.0000000000000001e+23"},
      {"444b1ae4d6e2ef4e", "999999999999999700000"},
      {"444b1ae4d6e2ef4f", "999999999999999900000"},
      {"444b1ae4d6e2ef50", "1e+21"},
      {"3eb0c6f7a0b5ed8c", "9.999999999999997e-7"},
      {"3eb0c6f7a0b5ed8d", "0.000001"},
      {"41b3de4355555553", "333333333.3333332"},
      {"41b3de4355555554", "333333333.33333325"},
      {"41b3de4355555555", "333333333.3333333"},
      {"41b3de4355555556", "333333333.3333334"},
      {"41b3de4355555557", "333333333.33333343"},
      {"becbf647612f3696", "-0.0000033333333333333333"},
      {"43143ff3c1cb0959", "1424953923781206.2"}
    };
    for (String[] sample : samples) {
      StringBuilder text = new StringBuilder();
      CanonicalText.number(text, Double.longBitsToDouble(Long.parseUnsignedLong(sample[0], 16)));
      assertThat(text).as(sample[0]).hasToString(sample[1]);
    }
  }

  @Test
  void bothWritersAgreeOnAnyString() {
    Random random = new Random(8785);
    for (int i = 0; i < 2_000; i++) {
      StringBuilder text = new StringBuilder();
      for (int letters = random.nextInt(12); letters > 0; letters--) {
        int point = random.nextInt(random.nextBoolean() ? 0x80 : 0x20000);
        text.appendCodePoint(point >= 0xd800 && point < 0xe000 ? 0x7f : point);
      }
      JsonNode json = CanonicalJson.tree(new String[] {text.toString()});
      StringBuilder written = new StringBuilder();
      CanonicalText.json(written, json);
      assertThat(written.toString()).isEqualTo(CanonicalJson.of(json));
    }
  }

  private static void both(String given, String canonical) {
    JsonNode json = CanonicalJson.parse(given);
    assertThat(CanonicalJson.of(json)).isEqualTo(canonical);
    StringBuilder text = new StringBuilder();
    CanonicalText.json(text, json);
    assertThat(text).hasToString(canonical);
  }
}
