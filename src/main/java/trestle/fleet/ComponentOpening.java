package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** What a component had run when these records began; null: not known, which is not zero. */
@Entity
@Table(name = "component_opening")
@Kind("component-opening")
class ComponentOpening extends Filed {
  UUID componentId;
  String counter;
  Long sinceNew;
  Long sinceOverhaul;
  LocalDate newOn;
  LocalDate overhauledOn;
}
