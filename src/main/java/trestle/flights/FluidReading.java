package trestle.flights;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.fleet.FuelUnit;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** Fuel and oil as found at the end of one flight. */
@Entity
@Table(name = "fluid_reading")
@Kind("fuel-and-oil")
class FluidReading extends Filed {
  UUID aircraftId;
  UUID flightEntryId;
  String fuelUnit;
  String addedIn;
  BigDecimal density;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> fuelAdded;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> fuelGauge;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> fuelDip;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilComponent;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilBefore;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilAdded;

  String[] oilChanged;
  String remark;

  @Column(name = "void")
  boolean isVoid;

  /** What a reading is of: which flight's end, and which engine was where. */
  record Of(
      UUID aircraftId,
      UUID flightEntryId,
      Instant landing,
      LocalDate landedOn,
      FuelUnit unit,
      Map<String, UUID> engines) {}

  static FluidReading of(Of what, FluidDraft draft) {
    FluidReading row = new FluidReading();
    row.aircraftId = what.aircraftId();
    row.flightEntryId = what.flightEntryId();
    row.fuelUnit = what.unit().word();
    row.addedIn = draft.addedIn().word();
    row.density = draft.density();
    row.fuelAdded = FluidArrangement.texts(draft.added());
    row.fuelGauge = FluidArrangement.texts(draft.gauge());
    row.fuelDip = FluidArrangement.texts(draft.dip());
    row.oilComponent = new TreeMap<>();
    what.engines().forEach((at, engine) -> row.oilComponent.put(at, engine.toString()));
    row.oilBefore = FluidArrangement.texts(draft.oilBefore());
    row.oilAdded = FluidArrangement.texts(draft.oilAdded());
    row.oilChanged = draft.oilChanged().toArray(String[]::new);
    row.remark = draft.remark();
    row.happened(what.landing(), what.landedOn());
    return row;
  }

  /** The reported content, equal for equal reports. */
  FluidDraft draft() {
    return new FluidDraft(
        FuelUnit.parse(addedIn),
        density,
        FluidArrangement.amounts(fuelAdded),
        FluidArrangement.amounts(fuelGauge),
        FluidArrangement.amounts(fuelDip),
        FluidArrangement.amounts(oilBefore),
        FluidArrangement.amounts(oilAdded),
        Set.of(oilChanged),
        remark);
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
