package trestle.people;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.web.Role;

/** What a person may do in one operator from now on; their newest row counts, no roles ends it. */
@Entity
@Table(name = "membership")
@Kind("membership")
class Membership extends Filed {
  UUID personId;
  String[] roles;

  protected Membership() {}

  Membership(UUID personId, Set<Role> roles) {
    this.personId = personId;
    this.roles = roles.stream().sorted().map(Role::word).toArray(String[]::new);
  }
}
