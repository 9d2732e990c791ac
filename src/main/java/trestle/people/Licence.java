package trestle.people;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Kind;
import trestle.ledger.Revocable;

/** A licence or certificate under which a person signs; a change is a new row that corrects it. */
@Entity
@Table(name = "licence")
@Kind(value = "licence", version = 2)
class Licence extends Revocable {
  UUID personId;
  String number;
  String kind;
  String ratings;
  String authorisation;
  LocalDate expiresOn;
  boolean withdrawn;
}
