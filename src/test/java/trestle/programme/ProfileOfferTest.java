package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import trestle.profiles.Examples;
import trestle.reckoning.Limit;
import trestle.web.Form;

/** What a rule profile fills in on the form of a requirement, and what it leaves alone. */
class ProfileOfferTest {
  private static final ProfileOffer PART_M = new ProfileOffer(Examples.of("part-m").profile());
  private static final ProfileOffer PART_91 = new ProfileOffer(Examples.of("part-91").profile());

  @Test
  void aToleranceOnOfferIsFilledInAtTheLimitThatCountsInItsUnit() {
    Form form = filled().with("limit-2-tolerance", "").with(ProfileOffer.CHOSEN, "0");
    PART_M.fill(form);
    Terms terms = RequirementForm.read(form, List.of());
    assertThat(form.errors()).isEmpty();
    Limit.Every calendar = (Limit.Every) terms.rule().group().limits().get(0);
    Limit.Every hours = (Limit.Every) terms.rule().group().limits().get(1);
    assertThat(calendar.tolerance()).isNull();
    assertThat(hours.tolerance()).hasToString("10");
    assertThat(hours.late()).isEqualTo(Limit.Late.KEEP_SCHEDULE);
    assertThat(terms.toleranceCondition()).startsWith("only by the approved variation procedure");
    assertThat(form.value(ProfileOffer.CHOSEN)).as("filled in, no longer chosen").isEmpty();
  }

  @Test
  void whatWasTypedStays() {
    Form form = filled().with("tolerance-condition", "never at night");
    form.with("limit-2-tolerance", "5").with(ProfileOffer.CHOSEN, "0");
    PART_M.fill(form);
    assertThat(form.value("limit-2-tolerance")).isEqualTo("5");
    assertThat(form.error(ProfileOffer.CHOSEN))
        .isEqualTo(
            "Tolerance on offer needs a limit that counts in hours and has no tolerance of its own"
                + " yet.");
    Form unknown = filled().with(ProfileOffer.CHOSEN, "7");
    PART_M.fill(unknown);
    assertThat(unknown.error(ProfileOffer.CHOSEN)).contains("one of the choices");
  }

  @Test
  void theMonthRuleGoesWithoutSayingAndOnlyWithMonths() {
    assertThat(ends(PART_91, "12 months", "")).isEqualTo(Limit.Ends.MONTH_END);
    assertThat(ends(PART_91, "90 days", "")).isEqualTo(Limit.Ends.ANNIVERSARY);
    assertThat(ends(PART_91, "12 months", "anniversary")).isEqualTo(Limit.Ends.ANNIVERSARY);
    assertThat(ends(new ProfileOffer(Examples.plain().profile()), "12 months", ""))
        .isEqualTo(Limit.Ends.ANNIVERSARY);
  }

  private static Limit.Ends ends(ProfileOffer offer, String every, String chosen) {
    Form form = filled().with("limit-1-every", every).with("limit-1-ends", chosen);
    offer.fill(form);
    Terms terms = RequirementForm.read(form, List.of());
    assertThat(form.errors()).isEmpty();
    return ((Limit.Every) terms.rule().group().limits().get(0)).ends();
  }

  private static Form filled() {
    return Form.blank()
        .with("title", "100-hour inspection")
        .with("kind", "inspection")
        .with("force", "mandatory")
        .with("effective-on", "2026-01-01")
        .with("limit-1-by", "calendar")
        .with("limit-1-every", "12 months")
        .with("limit-2-by", "use")
        .with("limit-2-every", "100");
  }
}
