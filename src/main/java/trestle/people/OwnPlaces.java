package trestle.people;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.web.Reading;
import trestle.web.Role;
import trestle.web.Viewer;

/**
 * Every operator that a person works for, as that person's viewer there. What is read with one of
 * them is read in a transaction of its own, behind that operator's walls.
 */
@ApplicationScoped
public class OwnPlaces {
  @Inject PeopleRepository people;

  /** By the operators' names; the person's own memberships and no others. */
  @Reading
  public List<Viewer> of(Viewer viewer) {
    people.speakForInstallation();
    Map<UUID, Set<Role>> roles = people.rolesOf(viewer.personId());
    return people.operatorsOf(viewer.personId()).stream()
        .map(operator -> viewer(viewer, operator, roles.get(operator.id)))
        .toList();
  }

  private static Viewer viewer(Viewer viewer, Operator operator, Set<Role> roles) {
    return new Viewer(
        viewer.personId(),
        viewer.personName(),
        false,
        operator.id,
        operator.name,
        operator.zone(),
        !"local".equals(operator.flightTimesIn),
        roles == null ? EnumSet.noneOf(Role.class) : roles);
  }
}
