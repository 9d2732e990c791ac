package trestle.profiles;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.RecordComponent;
import java.util.Arrays;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import trestle.reckoning.DeferralClock.Category;
import trestle.reckoning.DeferralExtension;
import trestle.web.Role;

/** The shipped examples parse, are complete, and say where every part of them comes from. */
class ExamplesTest {

  static Iterable<Example> all() {
    return Examples.all();
  }

  @ParameterizedTest
  @MethodSource("all")
  void saysEverythingAProfileSays(Example example) {
    Set<String> members = new TreeSet<>();
    ProfileJson.tree(example.profile()).fieldNames().forEachRemaining(members::add);
    assertThat(members).isEqualTo(new TreeSet<>(parts()));
    assertThat(example.profile().words().toString()).doesNotContain("null");
    assertThat(example.profile().statements().toString()).doesNotContain("null");
    assertThat(example.profile().untriaged()).isNotNull();
    assertThat(example.profile().monthRule()).isNotNull();
    assertThat(example.profile().countsFrom()).isNotNull();
    assertThat(example.profile().deferring())
        .extracting(RuleProfile.Deferring::route)
        .containsExactly(RuleProfile.Route.values());
  }

  @ParameterizedTest
  @MethodSource("all")
  void isAnExampleAndSaysWhereEachPartComesFrom(Example example) {
    assertThat(example.profile().example()).isTrue();
    Set<String> parts = new TreeSet<>(parts());
    parts.remove("document");
    assertThat(new TreeSet<>(example.sources().keySet())).isEqualTo(parts);
    assertThat(example.sources().values())
        .allSatisfy(
            source -> {
              assertThat(source.text()).isNotBlank();
              assertThat(source.statusWords()).isNotNull();
            });
  }

  @ParameterizedTest
  @MethodSource("all")
  void isFiledAndReadBackTheSame(Example example) {
    String filed = ProfileJson.text(example.profile());
    assertThat(ProfileJson.parse(filed)).isEqualTo(example.profile());
  }

  @ParameterizedTest
  @MethodSource("all")
  void onlyEngineersAndPilotsDefer(Example example) {
    assertThat(example.profile().deferring())
        .allSatisfy(one -> assertThat(one.by()).isSubsetOf(Role.ENGINEER, Role.PILOT));
  }

  /** FAA Order 8900.1, paragraph 4-689, as quoted. */
  @Test
  void theFaaExtendsBAndCOnce() {
    DeferralExtension once = new DeferralExtension(Set.of(Category.B, Category.C), 1);
    assertThat(Examples.of("part-91").profile().deferralExtension()).isEqualTo(once);
    assertThat(Examples.of("part-135").profile().deferralExtension()).isEqualTo(once);
  }

  /** ORO.MLR.105(f), read in the UK text of 20 Nov 2021. */
  @Test
  void easaAndTheUkExtendBCAndDOnce() {
    DeferralExtension once = new DeferralExtension(Set.of(Category.B, Category.C, Category.D), 1);
    assertThat(Examples.of("part-m").profile().deferralExtension()).isEqualTo(once);
    assertThat(Examples.of("part-ml").profile().deferralExtension()).isEqualTo(once);
  }

  /** 14 CFR 91.213(d), as quoted; 135.179, from memory. */
  @Test
  void part135HasNoRouteWithoutAList() {
    assertThat(Examples.of("part-91").profile().mayDefer(RuleProfile.Route.NO_LIST))
        .containsExactlyInAnyOrder(Role.PILOT, Role.ENGINEER);
    assertThat(Examples.of("part-135").profile().allows(RuleProfile.Route.NO_LIST)).isFalse();
  }

  private static Set<String> parts() {
    return Arrays.stream(RuleProfile.class.getRecordComponents())
        .map(RecordComponent::getName)
        .collect(Collectors.toSet());
  }
}
