package trestle.defects;

/** Long words cut to one line. */
final class Brief {
  private static final int MOST = 90;

  private Brief() {}

  static String of(String words) {
    String line = words.replaceAll("\\s+", " ").strip();
    if (line.length() <= MOST) {
      return line;
    }
    int end = line.lastIndexOf(' ', MOST);
    return line.substring(0, end < MOST / 2 ? MOST : end) + "…";
  }

  /** With a full stop, where it has no end of its own. */
  static String sentence(String words) {
    String line = of(words);
    return line.matches(".*[.!?…]") ? line : line + ".";
  }
}
