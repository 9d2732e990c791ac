package trestle.web;

/** There is no such thing in the viewer's operator: 404, whether it exists elsewhere or not. */
public class NotHere extends RuntimeException {
  public NotHere(String sentence) {
    super(sentence, null, false, false);
  }
}
