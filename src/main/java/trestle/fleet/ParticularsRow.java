package trestle.fleet;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.reckoning.HoursStyle;

@Entity
@Table(name = "aircraft_particulars")
@Kind("aircraft-particulars")
class ParticularsRow extends Filed {
  UUID aircraftId;
  UUID revises;
  String registration;
  String typeName;
  String manufacturer;
  String serial;
  Integer builtYear;
  String hoursBasis;
  String meterName;
  String rounding;
  String shownAs;
  String fuelUnit;
  boolean retired;

  static ParticularsRow of(UUID aircraftId, UUID revises, Particulars stated) {
    ParticularsRow row = new ParticularsRow();
    row.aircraftId = aircraftId;
    row.revises = revises;
    row.registration = stated.registration();
    row.typeName = stated.typeName();
    row.manufacturer = stated.manufacturer();
    row.serial = stated.serial();
    row.builtYear = stated.builtYear();
    row.hoursBasis = stated.hoursBasis().word();
    row.meterName = stated.meterName();
    row.rounding = stated.rounding().word();
    row.shownAs = stated.shownAs().name().toLowerCase(java.util.Locale.ROOT);
    row.fuelUnit = stated.fuelUnit();
    row.retired = stated.retired();
    return row;
  }

  Particulars stated() {
    return new Particulars(
        registration,
        typeName,
        manufacturer,
        serial,
        builtYear,
        HoursBasis.parse(hoursBasis),
        meterName,
        Rounding.parse(rounding),
        HoursStyle.valueOf(shownAs.toUpperCase(java.util.Locale.ROOT)),
        fuelUnit,
        retired);
  }

  AircraftSheet sheet() {
    return new AircraftSheet(aircraftId, id(), stated());
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
