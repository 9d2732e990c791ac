package trestle.apron;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A list as the operator wrote it, for one type or for all; a revision is a new row. */
@Entity
@Table(name = "check_list")
@Kind(value = "check-list", version = 2)
class CheckList extends Filed {
  String kind;
  String typeName;
  String[] lines;
}
