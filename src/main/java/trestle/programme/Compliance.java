package trestle.programme;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.ledger.NamesFiles;

/** The work was done, or (a baseline) where counting starts; readings are what the signer wrote. */
@Entity
@Kind(value = "compliance", version = 2)
class Compliance extends Filed {
  static final String DONE = "done";
  static final String BASELINE = "baseline";

  UUID requirementId;
  UUID aircraftId;
  UUID componentId;
  String kind;

  @JdbcTypeCode(SqlTypes.JSON)
  String readings = "{}";

  String workReference = "";
  String certifiedBy = "";
  String licenceNumber = "";
  String transcribedFrom = "";
  boolean complete = true;
  LocalDate countsFrom;
  String remarks = "";

  @NamesFiles(table = "compliance_file")
  String fileSha256;

  @NamesFiles(table = "compliance_file")
  String[] moreFiles;

  @Column(name = "void")
  boolean voided;

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }

  /** The hashes of its files, in the order in which they were added. */
  List<String> files() {
    List<String> files = new ArrayList<>();
    if (fileSha256 != null) {
      files.add(fileSha256);
      files.addAll(moreFiles == null ? List.of() : List.of(moreFiles));
    }
    return files;
  }

  void setFiles(Collection<String> sha256s) {
    List<String> all = sha256s.stream().distinct().toList();
    fileSha256 = all.isEmpty() ? null : all.get(0);
    moreFiles = all.size() < 2 ? null : all.subList(1, all.size()).toArray(String[]::new);
  }

  UUID subjectId() {
    return componentId == null ? aircraftId : componentId;
  }
}
