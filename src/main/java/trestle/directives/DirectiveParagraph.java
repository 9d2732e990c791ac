package trestle.directives;

import jakarta.persistence.Entity;
import java.util.List;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.programme.RuleJson;
import trestle.reckoning.Rule;
import trestle.reckoning.RuleWords;

/** One paragraph as last stated: whom it is about, and what is to be done by when. */
@Entity
@Kind("directive-paragraph")
class DirectiveParagraph extends Filed {
  UUID paragraphId;
  UUID directiveId;
  UUID revises;
  String label;
  String title;
  String about;
  String[] names;
  String serials;
  String modification = "";
  boolean modificationPresent;

  @JdbcTypeCode(SqlTypes.JSON)
  String rule;

  String forbids;
  String toleranceSource = "";
  String toleranceCondition = "";
  UUID[] terminates = {};
  boolean optional;
  boolean withdrawn;

  ParagraphSheet sheet() {
    Rule read = RuleJson.parse(rule);
    return new ParagraphSheet(
        paragraphId,
        id(),
        ledgerSeq() == null ? 0 : ledgerSeq(),
        directiveId,
        label,
        title,
        new Applicability(Applicability.About.parse(about), List.of(names), Serials.parse(serials)),
        modification,
        modificationPresent,
        read,
        RuleWords.every(read),
        forbids,
        toleranceSource,
        toleranceCondition,
        List.of(terminates),
        optional,
        withdrawn);
  }
}
