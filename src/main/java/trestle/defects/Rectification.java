package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.util.UUID;
import trestle.ledger.Kind;

/**
 * What was done about a defect, certified or copied from old papers, or what a correction says was
 * done: it closes the defect.
 */
@Entity
@Table(name = "rectification")
@Kind("rectification")
class Rectification extends CertifiedRecord {
  UUID defectEntryId;
  String done;
  String transcribedFrom = "";
  String signedBy = "";

  boolean isTranscribed() {
    return !transcribedFrom.isEmpty();
  }

  @Override
  UUID about() {
    return defectEntryId;
  }

  @Override
  String words() {
    return done;
  }

  @Override
  boolean saysAs(CertifiedRecord other) {
    return super.saysAs(other)
        && other instanceof Rectification rectification
        && transcribedFrom.equals(rectification.transcribedFrom);
  }
}
