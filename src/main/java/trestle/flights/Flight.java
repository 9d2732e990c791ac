package trestle.flights;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.reckoning.Counter;

/** One row of the journey log: a flight as first reported, or as a correction states it. */
@Entity
@Table(name = "flight")
@Kind("journey-log-entry")
class Flight extends Filed {
  UUID aircraftId;
  UUID entryId;
  String fromPlace;
  String toPlace;
  Instant offBlocksAt;
  Instant takeOffAt;
  Instant landingAt;
  Instant onBlocksAt;
  Long meterOut;
  Long meterIn;
  int landings;
  Integer cycles;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> otherAmounts;

  String commander;
  BigDecimal fuelAdded;
  BigDecimal fuelLeft;

  @JdbcTypeCode(SqlTypes.JSON)
  Map<String, String> oilAdded;

  String remarks;

  @Column(name = "void")
  boolean isVoid;

  static Flight of(UUID aircraftId, FlightDraft draft, LocalDate landedOn) {
    Flight row = new Flight();
    row.aircraftId = aircraftId;
    row.entryId = row.id();
    row.fromPlace = draft.from();
    row.toPlace = draft.to();
    row.offBlocksAt = draft.offBlocks();
    row.takeOffAt = draft.takeOff();
    row.landingAt = draft.landing();
    row.onBlocksAt = draft.onBlocks();
    row.meterOut = draft.meterOut();
    row.meterIn = draft.meterIn();
    row.landings = draft.landings();
    row.cycles = draft.cycles();
    row.otherAmounts = new TreeMap<>();
    draft
        .others()
        .forEach(
            (counter, units) -> row.otherAmounts.put(counter.name(), counter.unit().show(units)));
    row.commander = draft.commander();
    row.fuelAdded = draft.fuelAdded();
    row.fuelLeft = draft.fuelLeft();
    row.oilAdded = new TreeMap<>();
    draft.oilAdded().forEach((at, amount) -> row.oilAdded.put(at, amount.toPlainString()));
    row.remarks = draft.remarks();
    row.happened(draft.landing(), landedOn);
    return row;
  }

  /** The reported content, equal for equal reports. */
  FlightDraft draft() {
    SortedMap<String, BigDecimal> oil = new TreeMap<>();
    oilAdded.forEach((at, amount) -> oil.put(at, new BigDecimal(amount)));
    return new FlightDraft(
        fromPlace,
        toPlace,
        offBlocksAt,
        takeOffAt,
        landingAt,
        onBlocksAt,
        meterOut,
        meterIn,
        landings,
        cycles,
        others(otherAmounts),
        commander,
        fuelAdded,
        fuelLeft,
        oil,
        remarks);
  }

  Leg leg() {
    return Leg.of(id(), entryId, aircraftId, draft(), happenedOn());
  }

  static SortedMap<Counter, Long> others(Map<String, String> amounts) {
    SortedMap<Counter, Long> others = new TreeMap<>();
    amounts.forEach(
        (name, amount) -> {
          Counter counter = new Counter(name);
          others.put(counter, counter.unit().parse(amount));
        });
    return others;
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
