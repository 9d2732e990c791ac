package trestle.people;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.time.ZoneId;
import java.util.UUID;

@Entity
@Table(name = "operator")
class Operator {
  @Id UUID id = UuidCreator.getTimeOrderedEpoch();
  String name;
  String base;
  String timeZone;
  String flightTimesIn;
  boolean demo;
  Instant createdAt;
  UUID createdBy;

  ZoneId zone() {
    return ZoneId.of(timeZone);
  }
}
