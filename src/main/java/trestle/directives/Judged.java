package trestle.directives;

import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import trestle.web.Shown;

/**
 * How a paragraph stands for one aircraft or component on a day, worked out from what was judged:
 * nothing is stored of it, so a new revision, another serial number or another fitting brings the
 * question up again by itself.
 *
 * @param why in words: why it is to be assessed, or does not apply
 * @param assessment that stands; of one to be assessed again, the last that was filed; or null
 */
public record Judged(State state, String why, AssessmentSheet assessment) {

  /** In the order of a list. */
  public enum State {
    TO_BE_ASSESSED("To be assessed"),
    WAIVED("Waived"),
    APPLIES("Applies"),
    ENDED("Ended"),
    DOES_NOT("Does not apply"),
    NOT_NAMED("Not named");

    private final String shown;

    State(String shown) {
      this.shown = shown;
    }

    public String shown() {
      return shown;
    }

    /** The word in an address. */
    public String word() {
      return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    /** Null for any other word: an address asks for all then. */
    static State parse(String word) {
      return Stream.of(values()).filter(one -> one.word().equals(word)).findFirst().orElse(null);
    }
  }

  /**
   * @param condition how the modification that it depends on stands where the item is
   * @param all that was judged of this paragraph for this item, oldest first
   */
  static Judged of(
      DirectiveSheet directive,
      ParagraphSheet paragraph,
      Item item,
      Conditions.Condition condition,
      List<AssessmentSheet> all,
      LocalDate day) {
    Covered covered = paragraph.applicability().covers(item.name(), item.serial());
    if (covered == Covered.NO) {
      return new Judged(State.NOT_NAMED, paragraph.whom(), null);
    }
    if (condition.holds() == Covered.NO) {
      return new Judged(
          State.NOT_NAMED,
          paragraph.condition()
              + " The configuration says otherwise since "
              + Shown.date(condition.since().atZone(ZoneOffset.UTC).toLocalDate())
              + ".",
          null);
    }
    AssessmentSheet last = all.isEmpty() ? null : all.get(all.size() - 1);
    for (int i = all.size() - 1; i >= 0; i--) {
      AssessmentSheet one = all.get(i);
      if (lapsed(directive, paragraph, item, condition, one, day) == null) {
        return standing(one);
      }
      // What a waiver, or a judgement of a revision still to come, put aside stands again; what
      // took an older judgement's place does not give it back.
      if (one.verdict() != Verdict.WAIVED && !one.effectiveOn().isAfter(day)) {
        break;
      }
    }
    String why =
        last == null ? "never assessed" : lapsed(directive, paragraph, item, condition, last, day);
    String untold = covered == Covered.UNREADABLE ? "; " + unreadable(item) : "";
    boolean recorded = condition.holds() != Covered.UNREADABLE;
    String missing =
        recorded
            ? ""
            : "; whether " + paragraph.modification() + " was carried out is not recorded";
    return new Judged(State.TO_BE_ASSESSED, why + untold + missing, last);
  }

  private static Judged standing(AssessmentSheet assessment) {
    return switch (assessment.verdict()) {
      case APPLIES -> new Judged(State.APPLIES, assessment.why(), assessment);
      case DOES_NOT -> new Judged(State.DOES_NOT, assessment.why(), assessment);
      case WAIVED ->
          new Judged(
              State.WAIVED,
              "until " + Shown.date(assessment.lastDay()) + ": " + assessment.why(),
              assessment);
    };
  }

  /** Why an assessment stands no more, or null while it does. */
  private static String lapsed(
      DirectiveSheet directive,
      ParagraphSheet paragraph,
      Item item,
      Conditions.Condition condition,
      AssessmentSheet assessment,
      LocalDate day) {
    if (!assessment.revision().equals(directive.revision())
        || !assessment.effectiveOn().equals(directive.effectiveOn())) {
      return "assessed before the directive was revised";
    }
    if (!assessment.paragraphRow().equals(paragraph.rowId())) {
      return "assessed before the paragraph was revised";
    }
    if (!assessment.subjectSerial().equalsIgnoreCase(item.serial())
        || !assessment.subjectName().equalsIgnoreCase(item.name())) {
      return "assessed as " + assessment.subjectName() + ", serial " + assessment.subjectSerial();
    }
    if (item.isComponent() && !assessment.ofPart() && !item.isSince(assessment)) {
      return item.aircraftId() == null ? "assessed where it was fitted" : "fitted here since";
    }
    if (assessment.verdict() == Verdict.DOES_NOT
        && condition.since() != null
        && condition.since().isAfter(assessment.at())) {
      return "assessed before the configuration said of " + paragraph.modification();
    }
    boolean over = assessment.verdict() == Verdict.WAIVED && day.isAfter(assessment.lastDay());
    return over ? "its waiver ended on " + Shown.date(assessment.lastDay()) : null;
  }

  private static String unreadable(Item item) {
    return item.serial().isBlank()
        ? "its serial number is missing"
        : "whether serial " + item.serial() + " is named can’t be told";
  }
}
