package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;
import static trestle.reckoning.Group.first;
import static trestle.reckoning.Group.last;

import java.time.LocalDate;
import org.junit.jupiter.api.Test;
import trestle.reckoning.Counter;
import trestle.reckoning.Group;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.web.Form;

/** A rule filled into a form and read back from it is the same rule, in rows as far as they go. */
class RuleFormTest {
  private static final Limit TOTAL = Limit.Fixed.at(Counter.HOURS, "1000");
  private static final Limit HOURS = Limit.Every.of(Counter.HOURS, "50");
  private static final Limit DAY = Limit.Fixed.on(LocalDate.of(2026, 6, 1));

  @Test
  void rowsSayOneLimitAndTwoOthersUntilItIsFirstDone() {
    thereAndBack(last(TOTAL, first(HOURS, DAY)), RuleForm.LATER_OF_ONE, false);
    thereAndBack(first(TOTAL, last(HOURS, DAY)), RuleForm.EARLIER_OF_ONE, false);
    thereAndBack(last(TOTAL, HOURS, DAY), "last", false);
    thereAndBack(first(TOTAL, HOURS), "first", false);
  }

  @Test
  void whatRowsCannotSayIsKeptAsText() {
    thereAndBack(last(first(HOURS, DAY), TOTAL), "", true);
    thereAndBack(last(TOTAL, last(HOURS, DAY)), "", true);
    thereAndBack(last(TOTAL, first(HOURS, last(DAY, TOTAL))), "", true);
  }

  @Test
  void aThirdLimitThatIsSpokenOfIsAskedFor() {
    Form form = filled(last(TOTAL, first(HOURS, DAY))).with("initial-3-by", "");
    form.with("initial-3-every", "");
    assertThat(RuleForm.read(form)).isNull();
    assertThat(form.errors()).extracting(error -> error.field()).containsExactly("initial-combine");
  }

  private static void thereAndBack(Group initial, String combine, boolean asText) {
    Form form = filled(initial);
    assertThat(form.value("initial-combine")).isEqualTo(combine);
    assertThat(form.value(RuleForm.EXPERT).isEmpty()).isEqualTo(!asText);
    assertThat(RuleForm.read(form)).isEqualTo(rule(initial));
    assertThat(form.errors()).isEmpty();
  }

  private static Form filled(Group initial) {
    Form form = Form.blank();
    RuleForm.fill(form, rule(initial));
    return form;
  }

  private static Rule rule(Group initial) {
    return Rule.first(Limit.Every.of(Counter.HOURS, "100")).withInitial(initial);
  }
}
