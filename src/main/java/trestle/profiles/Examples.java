package trestle.profiles;

import java.util.List;

/** The shipped examples, read once from the files beside the program. */
public final class Examples {
  private static final String PLAIN = "plain";

  /** In the order in which they are offered. */
  private static final List<String> KEYS =
      List.of(PLAIN, "part-91", "part-135", "part-m", "part-ml");

  private static final List<Example> ALL = KEYS.stream().map(Examples::read).toList();

  private Examples() {}

  public static List<Example> all() {
    return ALL;
  }

  /** What an operator goes by that never chose. */
  public static Example plain() {
    return ALL.get(0);
  }

  /** The example of that key, or null. */
  public static Example of(String key) {
    return ALL.stream().filter(one -> one.key().equals(key)).findFirst().orElse(null);
  }

  private static Example read(String key) {
    return ProfileJson.read(
        Examples.class.getResourceAsStream("/rule-profiles/" + key + ".json"), Example.class);
  }
}
