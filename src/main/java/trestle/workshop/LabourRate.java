package trestle.workshop;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.math.BigDecimal;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** What an hour of some labour costs from a day on; without a rate, that it has ended. */
@Entity
@Table(name = "labour_rate")
@Kind("labour-rate")
class LabourRate extends Filed {
  String name;
  UUID personId;
  BigDecimal hourlyRate;
  String currency;
}
