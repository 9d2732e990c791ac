package trestle.formats;

/** A text that is not JSON at all; the message says where, after "the body". */
public final class MalformedJson extends Exception {
  private static final long serialVersionUID = 1;

  MalformedJson(String message) {
    super(message);
  }
}
