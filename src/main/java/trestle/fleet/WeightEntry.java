package trestle.fleet;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A weighing of the empty aircraft, or what was added to it or taken away since. */
@Entity
@Table(name = "weight_entry")
@Kind(value = "weight-entry", version = 2)
class WeightEntry extends Filed {
  UUID aircraftId;
  String kind;
  String what;
  BigDecimal weight;
  BigDecimal arm;
  String weightUnit;
  String armUnit;
  String reference;

  @Column(name = "void")
  boolean isVoid;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }

  EmptyWeight.Entry entry() {
    return new EmptyWeight.Entry(
        id(),
        happenedOn(),
        kind.equals("weighing"),
        what,
        weight,
        arm,
        weightUnit,
        armUnit,
        reference);
  }
}
