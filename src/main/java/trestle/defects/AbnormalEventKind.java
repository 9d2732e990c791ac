package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** An abnormal event that the operator lists, and the inspection it asks for. */
@Entity
@Table(name = "abnormal_event_kind")
@Kind("abnormal-event-kind")
class AbnormalEventKind extends Filed {
  String code;
  String name;
  String inspection;
  boolean withdrawn;
}
