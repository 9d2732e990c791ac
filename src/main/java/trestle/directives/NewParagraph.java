package trestle.directives;

import java.util.List;
import java.util.UUID;
import trestle.reckoning.Rule;
import trestle.standing.DueItem;

/** A paragraph to be filed; see {@link ParagraphSheet}. */
public record NewParagraph(
    String label,
    String title,
    Applicability applicability,
    String modification,
    boolean modificationPresent,
    Rule rule,
    String forbids,
    String toleranceSource,
    String toleranceCondition,
    List<UUID> terminates,
    boolean optional) {

  public NewParagraph {
    terminates = List.copyOf(terminates);
  }

  /** One with nothing but what must be said. */
  public static NewParagraph of(String label, String title, Applicability whom, Rule rule) {
    return new NewParagraph(
        label, title, whom, "", true, rule, DueItem.ANY_FLIGHT, "", "", List.of(), false);
  }

  /** Only where a modification is carried out, or only where it is not. */
  public NewParagraph only(String code, boolean present) {
    return new NewParagraph(
        label,
        title,
        applicability,
        code,
        present,
        rule,
        forbids,
        toleranceSource,
        toleranceCondition,
        terminates,
        optional);
  }

  public NewParagraph terminating(UUID... paragraphs) {
    return new NewParagraph(
        label,
        title,
        applicability,
        modification,
        modificationPresent,
        rule,
        forbids,
        toleranceSource,
        toleranceCondition,
        List.of(paragraphs),
        optional);
  }
}
