package trestle.programme;

import jakarta.persistence.Entity;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A revision of a programme, issued from the day it happened on. */
@Entity
@Kind("programme-revision")
class ProgrammeRevision extends Filed {
  UUID programmeId;
  String number;
  String approvedBy;
  String reference = "";

  /** The revision as it was issued, in a row that says what it should have said; else null. */
  UUID entryId;
}
