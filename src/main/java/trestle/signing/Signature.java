package trestle.signing;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;

/** One person's name under one statement about one filed record. */
@Entity
@Table(name = "signature")
@Kind("signature")
class Signature extends Filed {
  UUID aircraftId;
  String signsKind;
  UUID signsRecord;
  int ordinal;
  UUID personId;
  String personName;
  String role;
  String licenceNumber;
  String licenceKind;
  String statement;
  String signed;
  String sha256;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }

  SignatureLine line() {
    return new SignatureLine(
        id(),
        aircraftId,
        signsKind,
        signsRecord,
        ordinal,
        personId,
        personName,
        role,
        licenceNumber,
        licenceKind,
        statement,
        signed,
        sha256,
        happenedAt());
  }
}
