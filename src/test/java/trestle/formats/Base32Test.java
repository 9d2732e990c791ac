package trestle.formats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.util.Random;
import org.junit.jupiter.api.Test;

class Base32Test {

  /** RFC 4648, section 10, without the padding. */
  @Test
  void writesThePublishedExamples() {
    String[][] examples = {
      {"", ""},
      {"f", "MY"},
      {"fo", "MZXQ"},
      {"foo", "MZXW6"},
      {"foob", "MZXW6YQ"},
      {"fooba", "MZXW6YTB"},
      {"foobar", "MZXW6YTBOI"}
    };
    for (String[] example : examples) {
      byte[] bytes = example[0].getBytes(StandardCharsets.US_ASCII);
      assertThat(Base32.of(bytes)).isEqualTo(example[1]);
      assertThat(Base32.parse(example[1])).isEqualTo(bytes);
    }
  }

  @Test
  void readsBackWhatItWrote() {
    Random random = new Random(4648);
    for (int length = 0; length < 200; length++) {
      byte[] bytes = new byte[length];
      random.nextBytes(bytes);
      assertThat(Base32.parse(Base32.of(bytes))).isEqualTo(bytes);
    }
  }

  @Test
  void refusesWhatItNeverWrites() {
    // "MZ" is "f" with bits left over; "MYA" and "M" are of no whole byte.
    for (String wrong : new String[] {"MZ", "MYA", "M", "my", "MY======", "M0", "MY "}) {
      assertThatThrownBy(() -> Base32.parse(wrong))
          .as(wrong)
          .isInstanceOf(IllegalArgumentException.class);
    }
  }
}
