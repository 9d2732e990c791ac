package trestle.fleet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** What an aircraft carries, as filed and as it was on a past day. */
@QuarkusTest
class ConfigurationsTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T12:00:00Z");
  private static final Instant LATER = Instant.parse("2025-06-01T12:00:00Z");

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject Configurations configurations;

  private Company company;
  private Viewer owner;
  private UUID aircraft;

  @BeforeEach
  void found() {
    company = Company.founded("configuration-" + UUID.randomUUID(), operators, members);
    owner = company.viewer(Role.OWNER);
    aircraft = hangar.single(owner, "QX-CFG", BEGINNING);
  }

  @Test
  void aModificationHoldsFromItsDayUntilItIsRemoved() {
    UUID floats = configurations.state(owner, aircraft, floats(null, true, BEGINNING, null));
    configurations.state(owner, aircraft, floats(floats, false, LATER, "Back on wheels"));

    assertThat(configurations.of(owner, aircraft, View.asAt(owner.dateOf(BEGINNING))).codes())
        .containsExactly("FLOATS-2");
    assertThat(configurations.of(owner, aircraft, View.EVERYTHING).codes()).isEmpty();
    assertThat(configurations.of(owner, aircraft, View.EVERYTHING).modifications()).hasSize(1);
  }

  @Test
  void aCodeStandsOnceOnAnAircraftAndAChangeNeedsAReason() {
    UUID floats = configurations.state(owner, aircraft, floats(null, true, BEGINNING, null));
    assertThatThrownBy(() -> configurations.state(owner, aircraft, floats(null, true, LATER, null)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("FLOATS-2 is on this aircraft already");
    assertThatThrownBy(
            () -> configurations.state(owner, aircraft, floats(floats, false, LATER, " ")))
        .isInstanceOf(Refusal.class);
  }

  @Test
  void inoperativeEquipmentNeedsItsPlacard() {
    assertThatThrownBy(
            () ->
                configurations.state(
                    owner,
                    aircraft,
                    new Configurations.NewEquipment(
                        null, "Heater", "inoperative", " ", "", LATER, null)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Placard is needed");
  }

  /** A weighing found late moves what every later change leads to; one that can't be is refused. */
  @Test
  void weightsAddUpInTheOrderInWhichTheyHappened() {
    configurations.weigh(owner, aircraft, weight(true, "800", "1000", BEGINNING, null));
    UUID change = configurations.weigh(owner, aircraft, weight(false, "-20", "500", LATER, null));
    EmptyWeight.Line now = configurations.of(owner, aircraft, View.EVERYTHING).emptyWeight().now();
    assertThat(now.weight()).isEqualByComparingTo("780");
    assertThat(now.arm()).isEqualByComparingTo("1012.821");

    assertThatThrownBy(
            () ->
                configurations.weigh(
                    owner, aircraft, weight(false, "5", "1", BEGINNING.minusSeconds(86_400), null)))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("A change needs a weighing before it.");

    configurations.weigh(owner, aircraft, weight(false, "-10", "500", LATER, change));
    assertThat(configurations.of(owner, aircraft, View.EVERYTHING).emptyWeight().now().weight())
        .isEqualByComparingTo("790");
  }

  private static Configurations.NewModification floats(
      UUID id, boolean embodied, Instant at, String reason) {
    return new Configurations.NewModification(
        id,
        "FLOATS-2",
        "Floats",
        false,
        true,
        "Approval 12",
        "Form 3",
        "32",
        "",
        embodied,
        at,
        reason,
        null);
  }

  private static Configurations.NewWeight weight(
      boolean weighing, String weight, String arm, Instant at, UUID corrects) {
    return new Configurations.NewWeight(
        weighing,
        "What",
        new BigDecimal(weight),
        new BigDecimal(arm),
        "kg",
        "mm",
        "",
        at,
        corrects,
        false,
        corrects == null ? null : "Misread",
        null);
  }
}
