package trestle.reckoning;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.TestFactory;

class CompressionTest {

  /** Against a stated limit of 60; null where there can be no such reading. */
  record Case(String name, String reading, String supply, String loss, Boolean reaches) {}

  private static final List<Case> CASES =
      List.of(
          // FAA AC 43.13-1B, 8-14, as quoted: less than 60/80 is removed and inspected; the loss is
          // its formula, the percentages are our arithmetic.
          new Case("at 60", "60", "80", "25.00", true),
          new Case("below 60", "59", "80", "26.25", false),
          new Case("a sound one", "72", "80", "10.00", true),
          // Our arithmetic.
          new Case("nothing lost", "80", "80", "0.00", true),
          new Case("nothing left", "0", "80", "100.00", false),
          new Case("half a pound below", "59.5", "80", "25.63", false),
          new Case("another supply", "75", "100", "25.00", true),
          new Case("above its supply", "81", "80", null, null),
          new Case("below nothing", "-1", "80", null, null),
          new Case("no supply", "0", "0", null, null),
          new Case("a supply beyond any rig", "72", "800", null, null));

  @TestFactory
  Stream<DynamicTest> lossAndLimit() {
    return CASES.stream().map(each -> DynamicTest.dynamicTest(each.name(), () -> check(each)));
  }

  private static void check(Case each) {
    BigDecimal reading = new BigDecimal(each.reading());
    BigDecimal supply = new BigDecimal(each.supply());
    if (each.loss() == null) {
      assertThatThrownBy(() -> new Compression(reading, supply))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessageStartingWith("must ");
      return;
    }
    Compression compression = new Compression(reading, supply);
    assertThat(compression.lossPercent()).isEqualTo(each.loss());
    assertThat(compression.reaches(BigDecimal.valueOf(60))).isEqualTo(each.reaches());
    assertThat(compression).hasToString(each.reading() + "/" + each.supply());
  }
}
