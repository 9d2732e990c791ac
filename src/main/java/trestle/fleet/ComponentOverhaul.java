package trestle.fleet;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

@Entity
@Table(name = "component_overhaul")
@Kind("component-overhaul")
class ComponentOverhaul extends Filed {
  UUID componentId;
  String reference;

  @Column(name = "void")
  boolean isVoid;
}
