package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A component as stated; the newest row of a component counts. */
@Entity
@Table(name = "component")
@Kind(value = "component", version = 2)
class ComponentRow extends Filed {
  UUID componentId;
  String kind;
  String partNumber;
  String serial;
  String description;
  String manufacturer;
  String owner;

  ComponentSheet sheet() {
    return new ComponentSheet(
        componentId,
        PartKind.parse(kind),
        partNumber,
        serial,
        description,
        manufacturer,
        owner == null ? "" : owner);
  }
}
