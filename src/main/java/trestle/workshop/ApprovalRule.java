package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** Whether the owner approves every order before its work starts; the newest row counts. */
@Entity
@Table(name = "approval_rule")
@Kind("approval-rule")
class ApprovalRule extends Filed {
  boolean always;
}
