package trestle.web;

/**
 * Someone else filed on the same thing since the form was opened: 409, both versions are shown and
 * nothing was stored.
 */
public class Stale extends RuntimeException {
  public Stale(String sentence) {
    super(sentence, null, false, false);
  }
}
