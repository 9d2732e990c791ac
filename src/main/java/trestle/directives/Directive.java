package trestle.directives;

import jakarta.persistence.Entity;
import java.time.LocalDate;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.ledger.NamesFiles;

/** A directive or bulletin as one revision has it; it happens on the day it takes effect. */
@Entity
@Kind(value = "directive", version = 2)
class Directive extends Filed {
  UUID directiveId;
  UUID revises;
  String issuer;
  String number;
  String kind;
  boolean mandatory;
  String revision = "";
  LocalDate effectiveOn;
  String title;
  String textReference = "";

  @NamesFiles(table = "directive_file")
  String fileSha256;

  UUID[] supersedes = {};
  boolean withdrawn;

  DirectiveSheet sheet() {
    return new DirectiveSheet(
        directiveId,
        id(),
        ledgerSeq(),
        issuer,
        number,
        kind.equals(DirectiveSheet.BULLETIN),
        mandatory,
        revision,
        effectiveOn,
        title,
        textReference,
        fileSha256,
        java.util.List.of(supersedes),
        withdrawn,
        reason(),
        recordedAt(),
        recordedBy());
  }
}
