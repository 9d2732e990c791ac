package trestle.fleet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;

/**
 * Weight and arm: the new centre of gravity is the sum of the moments over the sum of the weights
 * (common practice; the rule is that of FAA-H-8083-1, from memory). The figures were worked by
 * hand.
 */
class EmptyWeightTest {

  /** 1,500.0 lb at 40.0 in; 12.5 lb taken out at 108.0 in, 5.0 lb put in at −10.0 in. */
  @Test
  void momentsAreSummed() {
    EmptyWeight weight =
        EmptyWeight.of(
            List.of(weighed("1500", "40"), change("-12.5", "108"), change("5.0", "-10")));
    // 60,000 − 1,350 − 50 = 58,600 lb·in on 1,492.5 lb
    assertThat(weight.now().weight()).isEqualByComparingTo("1492.5");
    assertThat(weight.now().moment()).isEqualByComparingTo("58600");
    assertThat(weight.now().arm()).isEqualByComparingTo("39.263");
  }

  /** Rounded arms carried on would drift: 3 kg at 1 mm, and 1 kg at 0 mm a hundred times. */
  @Test
  void onlyTheArmShownIsRounded() {
    List<EmptyWeight.Entry> entries = new java.util.ArrayList<>(List.of(weighed("3", "1")));
    for (int i = 0; i < 100; i++) {
      entries.add(change("1", "0"));
    }
    assertThat(EmptyWeight.of(entries).now().moment()).isEqualByComparingTo("3");
    assertThat(EmptyWeight.of(entries).now().arm()).isEqualByComparingTo("0.029");
  }

  @Test
  void aWeighingBeginsAnew() {
    EmptyWeight weight =
        EmptyWeight.of(List.of(weighed("1500", "40"), change("10", "10"), weighed("1503", "41")));
    assertThat(weight.now().weight()).isEqualByComparingTo("1503");
    assertThat(weight.now().arm()).isEqualByComparingTo("41");
  }

  @Test
  void whatCannotBeIsRefusedWithASentence() {
    assertThatThrownBy(() -> EmptyWeight.of(List.of(change("1", "1"))))
        .hasMessage("A change needs a weighing before it.");
    assertThatThrownBy(() -> EmptyWeight.of(List.of(weighed("10", "1"), change("-10", "1"))))
        .hasMessage("The change takes away more than there is.");
    assertThatThrownBy(
            () -> EmptyWeight.of(List.of(weighed("10", "1"), entry(false, "1", "1", "kg"))))
        .hasMessage("The change must be in the units of the weighing: lb and in.");
  }

  private static EmptyWeight.Entry weighed(String weight, String arm) {
    return entry(true, weight, arm, "lb");
  }

  private static EmptyWeight.Entry change(String weight, String arm) {
    return entry(false, weight, arm, "lb");
  }

  private static EmptyWeight.Entry entry(boolean weighing, String weight, String arm, String unit) {
    return new EmptyWeight.Entry(
        UUID.randomUUID(),
        LocalDate.of(2025, 3, 1),
        weighing,
        "What",
        new BigDecimal(weight),
        new BigDecimal(arm),
        unit,
        "in",
        "");
  }
}
