package trestle.fleet;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.reckoning.Counter;

/** What a component's own meter showed. */
@Entity
@Table(name = "component_meter_reading")
@Kind("component-meter-reading")
class ComponentMeterReading extends Filed {
  UUID componentId;
  String counter;
  long reading;

  /** What a new meter showed that took this one's place then, or null. */
  Long replacedBy;

  @Column(name = "void")
  boolean isVoid;

  ComponentHistory.MeterReading shown() {
    return new ComponentHistory.MeterReading(
        id(), new Counter(counter), reading, replacedBy, happenedAt(), happenedOn());
  }
}
