package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A defect may be flown with until its limit, on conditions. */
@Entity
@Table(name = "deferral")
@Kind("deferral")
class Deferral extends Filed {
  UUID aircraftId;
  UUID defectEntryId;
  String route;
  String listReference = "";
  String item = "";
  String category = "";
  String unit = "";
  Long amount;
  LocalDate discoveredOn;
  boolean inUtc;
  LocalDate lastDay;
  UUID withRequirementId;
  UUID withComponentId;
  String madeSafe = "";
  String notRequired = "";
  String noHazard = "";
  String noHazardBy = "";
  String limitation = "";
  String forbids = "";
  String placard = "";
  String placardPlace = "";
  String maintenanceProcedure = "";
  String operationsProcedure = "";
  String role;
  String licenceNumber = "";
  String licenceKind = "";
  String profileName;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
