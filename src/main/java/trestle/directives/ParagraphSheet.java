package trestle.directives;

import java.util.List;
import java.util.UUID;
import trestle.reckoning.Rule;

/**
 * One paragraph of a directive as stated in one view.
 *
 * @param id the same through its revisions
 * @param rowId of the row that states it: what an assessment names
 * @param label such as "(a)", or ""
 * @param modification about those only that have this modification, or have it not; "" where it
 *     makes no difference. The aircraft's configuration says; where it does not, a person
 * @param terminates the paragraphs that need no more doing once this one is done
 * @param optional doing it is a choice: it holds nothing
 */
public record ParagraphSheet(
    UUID id,
    UUID rowId,
    long sequence,
    UUID directiveId,
    String label,
    String title,
    Applicability applicability,
    String modification,
    boolean modificationPresent,
    Rule rule,
    String ruleWords,
    String forbids,
    String toleranceSource,
    String toleranceCondition,
    List<UUID> terminates,
    boolean optional,
    boolean withdrawn) {

  /** "(a) Exhaust clamps: repeated inspection". */
  public String words() {
    return label.isEmpty() ? title : label + " " + title;
  }

  /** "Only where modification FS-12 is not there", or "". */
  public String condition() {
    return modification.isEmpty()
        ? ""
        : "Only where "
            + modification
            + (modificationPresent ? " was carried out." : " was not carried out.");
  }

  /** "Part MG-4310, serials 1001 through 1475". */
  public String whom() {
    return applicability.words();
  }
}
