package trestle.web;

import java.util.List;
import java.util.stream.Stream;

/** One choice on a page: what is sent, what is read, and a word of explanation or "". */
public record Option(String value, String label, String hint) {

  public Option(String value, String label) {
    this(value, label, "");
  }

  /** Choices whose value is their own label. */
  public static List<Option> of(String... words) {
    return Stream.of(words).map(word -> new Option(word, word)).toList();
  }
}
