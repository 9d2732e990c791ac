package trestle.ledger;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.persistence.Id;
import jakarta.persistence.MappedSuperclass;
import java.time.Instant;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.UUID;

/**
 * A filed row: never changed, never removed. Subclasses add columns (each a field; the ledger's
 * JSON is made from the fields, so none can be forgotten) and the {@link Kind}.
 */
@MappedSuperclass
public abstract class Filed {
  @Id UUID id = UuidCreator.getTimeOrderedEpoch();
  UUID operatorId;
  Long ledgerSeq;
  Instant happenedAt;
  LocalDate happenedOn;
  Instant recordedAt;
  UUID recordedBy;
  UUID corrects;
  String reason;
  UUID formKey;

  /** When it happened, as stated: the instant, and the operator's local date of it. */
  public void happened(Instant at, LocalDate on) {
    happenedAt = at.truncatedTo(ChronoUnit.MICROS);
    happenedOn = on;
  }

  /** Puts an earlier row right: names it and says why. */
  public void correct(UUID original, String why) {
    corrects = original;
    reason = why;
  }

  /** Why, for a row that needs a reason without being a correction (a revision). */
  public void because(String why) {
    reason = why;
  }

  /** The key made when the form was opened: one form is filed once. */
  public void fromForm(UUID key) {
    formKey = key;
  }

  /** The aircraft whose record the ledger line belongs to, or null. */
  public UUID ledgerAircraft() {
    return null;
  }

  public UUID id() {
    return id;
  }

  public UUID operatorId() {
    return operatorId;
  }

  public Long ledgerSeq() {
    return ledgerSeq;
  }

  public Instant happenedAt() {
    return happenedAt;
  }

  public LocalDate happenedOn() {
    return happenedOn;
  }

  public Instant recordedAt() {
    return recordedAt;
  }

  public UUID recordedBy() {
    return recordedBy;
  }

  public UUID corrects() {
    return corrects;
  }

  public String reason() {
    return reason;
  }

  public UUID formKey() {
    return formKey;
  }
}
