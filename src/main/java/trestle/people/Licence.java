package trestle.people;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** A licence or certificate under which a person signs; a change is a new row that corrects it. */
@Entity
@Table(name = "licence")
@Kind("licence")
class Licence extends Filed {
  UUID personId;
  String number;
  String kind;
  String ratings;
  String authorisation;
  LocalDate expiresOn;
  boolean withdrawn;
}
