package trestle.standing;

/**
 * Why an aircraft is held or limited, in one sentence of two parts: what it is (which links to the
 * record behind it) and what about it.
 *
 * @param about continues the sentence after {@code what}, with its own punctuation; "" when {@code
 *     what} says it all
 */
public record Reason(Ground.Weight weight, String what, String about, String link) {

  static Reason of(Ground ground) {
    return new Reason(ground.weight(), ground.sentence(), "", ground.link());
  }

  public boolean holds() {
    return weight == Ground.Weight.HELD;
  }

  boolean permits() {
    return weight == Ground.Weight.PERMITTED;
  }

  Reason asLimit() {
    return new Reason(Ground.Weight.LIMITED, what, about, link);
  }

  public String sentence() {
    return what + about;
  }
}
