package trestle.web;

import java.util.List;

/**
 * A use case says no, with the sentence to show and, where it concerns one field of the form, that
 * field. Nothing of the use case was stored.
 */
public class Refusal extends RuntimeException {
  /**
   * @param field the form's field, or "" for the whole form
   * @param sentence what to show, a whole sentence that says what to do
   */
  public record Reason(String field, String sentence) {}

  private final transient List<Reason> reasons;

  public Refusal(List<Reason> reasons) {
    super(reasons.isEmpty() ? "" : reasons.get(0).sentence(), null, false, false);
    this.reasons = List.copyOf(reasons);
  }

  public Refusal(String field, String sentence) {
    this(List.of(new Reason(field, sentence)));
  }

  public List<Reason> reasons() {
    return reasons;
  }
}
