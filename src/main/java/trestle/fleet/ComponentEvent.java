package trestle.fleet;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

@Entity
@Table(name = "component_event")
@Kind(value = "component-event", version = 2)
class ComponentEvent extends Filed {
  UUID componentId;
  String kind;
  String whom;
  String why;
  String reference;
  boolean restarts;

  @Column(name = "void")
  boolean isVoid;

  ComponentHistory.Event event() {
    return new ComponentHistory.Event(
        id(),
        ComponentEventKind.parse(kind),
        happenedAt(),
        happenedOn(),
        whom,
        why,
        reference,
        restarts);
  }
}
