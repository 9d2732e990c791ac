package trestle.programme;

import jakarta.persistence.Entity;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A type's maintenance programme; known by the id of its first row, named by its last. */
@Entity
@Kind("programme")
class Programme extends Filed {
  String name;
  String typeName = "";
  String sourceReference = "";
}
