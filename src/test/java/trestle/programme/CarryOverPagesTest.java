package trestle.programme;

import static org.assertj.core.api.Assertions.assertThat;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.people.Company;
import trestle.people.Visitor;
import trestle.reckoning.Counter;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.standing.Subject;
import trestle.web.Role;
import trestle.web.Viewer;

/** A change of programme by its pages: what counted under the old one is offered for the new. */
@QuarkusTest
class CarryOverPagesTest {
  @Inject Upkeep upkeep;
  @Inject Programmes programmes;
  @Inject Requirements requirements;
  @Inject DueItems dueItems;
  @Inject InstantSource clock;

  @Test
  void theLikelyOneIsChosenAlreadyAndCountsOnceFiled() {
    Company company = upkeep.company();
    Viewer owner = company.viewer(Role.OWNER);
    LocalDate today = owner.dateOf(clock.instant());
    LocalDate began = today.minusDays(60);
    UUID aircraft = upkeep.aircraft(owner, "QX-COV", began, "hours=1000");
    UUID old = programme(owner, "Old", began);
    UUID inspection = inspection(owner, old, began);
    programmes.adopt(owner, aircraft, old, began, null, null);
    upkeep.done(company.viewer(Role.ENGINEER), inspection, aircraft, today.minusDays(30));
    UUID renewed = programme(owner, "New", began);
    UUID equivalent = inspection(owner, renewed, began);

    Visitor visitor = company.visitor(Role.OWNER);
    String page = "/aircraft/" + aircraft + "/programme";
    Response adopted =
        visitor.fillIn(
            page, "/adoptions", Map.of("programme", renewed.toString(), "on", today.toString()));
    assertThat(Visitor.leadsTo(adopted)).isEqualTo(page + "/carry-over");
    String asked = visitor.get(page + "/carry-over").asString();
    assertThat(asked).contains("<option value=\"" + inspection + "\" selected");
    Response filed = visitor.fillIn(page + "/carry-over", "/carry-over", Map.of());
    assertThat(Visitor.leadsTo(filed)).isEqualTo(page);
    assertThat(upkeep.limit(owner, equivalent, aircraft, today).left()).hasToString("100");
    assertThat(visitor.get(page + "/carry-over").asString()).contains("Nothing is left");
  }

  private UUID programme(Viewer owner, String name, LocalDate from) {
    return programmes.create(
        owner, new Programmes.NewProgramme(name, "Skerry 200", "", from, null));
  }

  private UUID inspection(Viewer owner, UUID programme, LocalDate from) {
    Rule rule = Rule.first(Limit.Every.of(Counter.HOURS, "100"));
    Terms terms = Terms.of("100-hour", RequirementKind.INSPECTION, rule, from);
    return requirements.create(
        owner, NewRequirement.ofProgramme(programme, Subject.AIRCRAFT, terms, from, "Nobody"));
  }
}
