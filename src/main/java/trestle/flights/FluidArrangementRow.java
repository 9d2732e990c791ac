package trestle.flights;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.fleet.FuelUnit;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** What a person stated of how an aircraft carries fuel and oil; a revision is a new row. */
@Entity
@Table(name = "fluid_arrangement")
@Kind("fuel-and-oil-arrangement")
class FluidArrangementRow extends Filed {
  UUID aircraftId;
  UUID revises;
  BigDecimal burnPerHour;
  BigDecimal tolerancePercent;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> tankLabels;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> tankCapacities;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilUnits;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilScales;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilLimits;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilLeast;

  static FluidArrangementRow of(UUID aircraftId, FluidArrangement stated) {
    FluidArrangementRow row = new FluidArrangementRow();
    row.aircraftId = aircraftId;
    row.revises = stated.revisionId();
    row.burnPerHour = stated.burnPerHour();
    row.tolerancePercent = stated.tolerancePercent();
    row.tankLabels = new TreeMap<>();
    Map<String, BigDecimal> capacities = new TreeMap<>();
    stated
        .tanks()
        .forEach(
            tank -> {
              row.tankLabels.put(tank.code(), tank.label());
              capacities.put(tank.code(), tank.capacity());
            });
    row.tankCapacities = FluidArrangement.texts(capacities);
    row.oils(stated.engines());
    return row;
  }

  private void oils(SortedMap<String, FluidArrangement.Engine> engines) {
    oilUnits = new TreeMap<>();
    oilScales = new TreeMap<>();
    Map<String, BigDecimal> limits = new TreeMap<>();
    Map<String, BigDecimal> least = new TreeMap<>();
    engines.forEach(
        (position, engine) -> {
          oilUnits.put(position, engine.unit());
          if (!engine.scale().isEmpty()) {
            oilScales.put(position, engine.scale());
          }
          limits.put(position, engine.limit());
          least.put(position, engine.least());
        });
    oilLimits = FluidArrangement.texts(limits);
    oilLeast = FluidArrangement.texts(least);
  }

  FluidArrangement stated(FuelUnit unit) {
    Map<String, BigDecimal> capacities = FluidArrangement.amounts(tankCapacities);
    List<FluidArrangement.Tank> tanks = new ArrayList<>();
    new TreeMap<>(tankLabels)
        .forEach(
            (code, label) ->
                tanks.add(new FluidArrangement.Tank(code, label, capacities.get(code))));
    Map<String, BigDecimal> limits = FluidArrangement.amounts(oilLimits);
    Map<String, BigDecimal> least = FluidArrangement.amounts(oilLeast);
    SortedMap<String, FluidArrangement.Engine> engines = new TreeMap<>();
    oilUnits.forEach(
        (position, oilUnit) ->
            engines.put(
                position,
                new FluidArrangement.Engine(
                    oilUnit,
                    oilScales.getOrDefault(position, ""),
                    limits.get(position),
                    least.get(position))));
    return new FluidArrangement(id(), unit, burnPerHour, tolerancePercent, tanks, engines);
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
