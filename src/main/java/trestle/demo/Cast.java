package trestle.demo;

import java.time.ZoneId;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.web.Role;
import trestle.web.Viewer;

/** The people of the demo operator, by sign-in name, and what each sees it as. */
final class Cast {
  private final UUID operatorId;
  private final String operatorName;
  private final ZoneId zone;
  private final boolean timesInUtc;
  private final Map<String, Viewer> viewers = new LinkedHashMap<>();

  Cast(UUID operatorId, String operatorName, ZoneId zone, boolean timesInUtc) {
    this.operatorId = operatorId;
    this.operatorName = operatorName;
    this.zone = zone;
    this.timesInUtc = timesInUtc;
  }

  static Set<Role> roles(SeedFile.Line person) {
    return Arrays.stream(person.text("roles").split(" "))
        .map(Role::parse)
        .collect(Collectors.toSet());
  }

  void add(SeedFile.Line person, UUID personId) {
    viewers.put(
        person.text("sign_in_name"),
        new Viewer(
            personId,
            person.text("name"),
            false,
            operatorId,
            operatorName,
            zone,
            timesInUtc,
            roles(person)));
  }

  Viewer of(String signInName) {
    return viewers.get(signInName);
  }

  /** The first with that role. */
  Viewer any(Role role) {
    return viewers.values().stream().filter(v -> v.is(role)).findFirst().orElseThrow();
  }

  UUID operatorId() {
    return operatorId;
  }

  ZoneId zone() {
    return zone;
  }
}
