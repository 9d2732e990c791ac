package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.fleet.Configurations;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.standing.DueItem;
import trestle.web.Role;
import trestle.web.Viewer;

/** Requirements that apply only where a modification is embodied, or is not. */
@QuarkusTest
class PresenceTest {
  @Inject Upkeep upkeep;
  @Inject Configurations configurations;
  @Inject DueItems dueItems;
  @Inject InstantSource clock;

  @Test
  void aRequirementComesAndGoesWithItsModification() {
    Company company = upkeep.company();
    Viewer owner = company.viewer(Role.OWNER);
    LocalDate today = owner.dateOf(clock.instant());
    LocalDate began = today.minusDays(60);
    UUID aircraft = upkeep.aircraft(owner, "QX-PRE", began, "hours=1000");
    UUID floats = requirement(owner, aircraft, "Float compartments", Presence.where("FLOATS-2"));
    UUID wheels = requirement(owner, aircraft, "Brake linings", Presence.whereNot("FLOATS-2"));

    assertThat(carried(owner, aircraft, today)).containsExactly(wheels);
    Instant fitted = today.minusDays(10).atTime(12, 0).toInstant(ZoneOffset.UTC);
    configurations.state(
        owner,
        aircraft,
        new Configurations.NewModification(
            null, "FLOATS-2", "Floats", false, true, "", "", "", "", true, fitted, null, null));
    assertThat(carried(owner, aircraft, today)).containsExactly(floats);
    assertThat(carried(owner, aircraft, today.minusDays(20))).containsExactly(wheels);
  }

  @Test
  void wherePresenceIsNotKnownNothingIsDropped() {
    assertThat(Presence.where("X").holds(null)).isTrue();
    assertThat(Presence.where("X").holds(Set.of("X"))).isTrue();
    assertThat(Presence.where("X").holds(Set.of("Y"))).isFalse();
    assertThat(Presence.whereNot("X").holds(Set.of("X"))).isFalse();
    assertThat(Presence.whereNot("X").words()).isEqualTo("only where X is not embodied");
  }

  private UUID requirement(Viewer owner, UUID aircraft, String title, Presence where) {
    Rule rule = Rule.first(Limit.Every.of(Counter.HOURS, "100"));
    LocalDate from = owner.dateOf(clock.instant()).minusDays(60);
    return upkeep.requirement(
        owner, aircraft, Terms.of(title, RequirementKind.INSPECTION, rule, from).only(where));
  }

  private List<UUID> carried(Viewer owner, UUID aircraft, LocalDate day) {
    return dueItems.dueItems(owner, List.of(aircraft), View.asAt(day)).get(aircraft).stream()
        .map(DueItem::requirementId)
        .toList();
  }
}
