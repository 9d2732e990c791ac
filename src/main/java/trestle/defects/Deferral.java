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
  String transcribedFrom;
  String signedBy;

  /** What is asked for, but for what the rule profile and the clock make of it. */
  static Deferral of(DefectSheet defect, NewDeferral asked) {
    Deferral row = new Deferral();
    row.aircraftId = defect.aircraftId();
    row.defectEntryId = defect.entryId();
    row.route = asked.route().word();
    if (asked.listed() != null) {
      row.listed(asked.listed());
    } else {
      row.unlisted(asked.unlisted());
    }
    row.conditions(asked.conditions());
    row.role = asked.by().word();
    return row;
  }

  private void listed(NewDeferral.Listed listed) {
    listReference = listed.reference().strip();
    item = listed.item().strip();
    category = listed.category().name();
    unit = listed.unit() == null ? "" : listed.unit().word();
    amount = listed.amount();
  }

  private void unlisted(NewDeferral.Unlisted unlisted) {
    madeSafe = unlisted.madeSafe();
    notRequired = unlisted.notRequired().strip();
    noHazard = unlisted.noHazard().strip();
    noHazardBy = unlisted.noHazardBy().strip();
    withRequirementId = unlisted.requirementId();
    withComponentId = unlisted.componentId();
  }

  private void conditions(NewDeferral.Conditions conditions) {
    limitation = conditions.limitation().strip();
    forbids = conditions.forbids().strip();
    placard = conditions.placard().strip();
    placardPlace = conditions.placardPlace().strip();
    maintenanceProcedure = conditions.maintenanceProcedure().strip();
    operationsProcedure = conditions.operationsProcedure().strip();
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
