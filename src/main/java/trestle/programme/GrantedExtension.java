package trestle.programme;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** One occurrence of one limit, put off: the one that was due next when it was granted. */
@Entity
@Kind("granted-extension")
class GrantedExtension extends Filed {
  UUID requirementId;
  UUID aircraftId;
  UUID componentId;
  String limitPath;
  Long dueAt;
  LocalDate dueOn;
  Long newDueAt;
  LocalDate newDueOn;
  String approvedBy;
  String reference;
  String allowedBy = "";

  @Column(name = "void")
  boolean voided;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }

  UUID subjectId() {
    return componentId == null ? aircraftId : componentId;
  }
}
