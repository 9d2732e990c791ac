package trestle.defects;

import java.util.List;

/**
 * A system of the aircraft by its published two-digit number.
 *
 * @param words what people call its parts, in small letters
 */
public record Chapter(String code, String title, List<String> words) {
  public Chapter {
    words = List.copyOf(words);
  }

  /** "24 Electrical power". */
  public String label() {
    return code + " " + title;
  }

  /** The plain words, as a list for people. */
  public String plain() {
    return String.join(", ", words);
  }
}
