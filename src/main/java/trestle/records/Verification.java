package trestle.records;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;

/** That a ledger was verified, and what came of it. */
@Entity
@Table(name = "verification")
class Verification {
  @Id UUID id = UuidCreator.getTimeOrderedEpoch();
  UUID operatorId;
  Instant beganAt;
  Instant endedAt;
  long size;
  byte[] root;

  /** The first thing that disagreed, or null. */
  String trouble;

  /** How the head or proof disagreed that somebody handed in, or null. */
  String outside;

  /** Null in the nightly run. */
  UUID askedBy;
}
