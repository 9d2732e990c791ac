package trestle.profiles;

import java.util.Map;

/**
 * A shipped profile to start from.
 *
 * @param key how it is named in addresses and records
 * @param title what a page calls it
 * @param about whom it is an example for
 * @param profile what it says
 * @param sources where each part of it comes from
 */
public record Example(
    String key, String title, String about, RuleProfile profile, Map<String, Source> sources) {

  /**
   * @param text the document and paragraph
   * @param status how far it was confirmed: V read in the document itself, Q read as a quotation, M
   *     from memory, P common practice without a source
   */
  public record Source(String text, String status) {
    private static final Map<String, String> IN_WORDS =
        Map.of(
            "V", "read in the document itself",
            "Q", "as quoted elsewhere",
            "M", "from memory, not confirmed",
            "P", "common practice, no source");

    public String statusWords() {
      return IN_WORDS.get(status);
    }
  }

  public Example {
    sources = Map.copyOf(sources);
  }
}
