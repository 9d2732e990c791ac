package trestle.directives;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.regex.Pattern;

/**
 * A serial number in three parts: what stands before the number, the number with its zeros, and
 * what stands after it: "VT-3107" is "VT-", "3107", "". Capitals and small letters are alike.
 *
 * @param digits "" where there is none
 */
record SerialNumber(String before, String digits, String after) {
  private static final Set<String> NOTHING =
      Set.of("N/A", "NA", "NONE", "NIL", "TBA", "TBD", "UNKNOWN", "NOT KNOWN", "MISSING");

  private static final Pattern BLANKS = Pattern.compile("\\s+");
  private static final Pattern LEADING =
      Pattern.compile("^((S/N|SN|SERIAL( NO\\.?| NUMBER)?|NO\\.)[ :.]+)+(?=.)");

  SerialNumber {
    Objects.requireNonNull(before);
    Objects.requireNonNull(digits);
    Objects.requireNonNull(after);
  }

  /** Split at the last run of digits. */
  static SerialNumber of(String text) {
    String plain = plain(text);
    int end = plain.length();
    while (end > 0 && !isDigit(plain.charAt(end - 1))) {
      end--;
    }
    int start = end;
    while (start > 0 && isDigit(plain.charAt(start - 1))) {
      start--;
    }
    return start == end
        ? new SerialNumber(plain, "", "")
        : new SerialNumber(
            plain.substring(0, start), plain.substring(start, end), plain.substring(end));
  }

  /** Split at each run of digits: of "1042-1" either may be the number that is meant. */
  static List<SerialNumber> splits(String plain) {
    List<SerialNumber> splits = new ArrayList<>(2);
    int at = 0;
    while (at < plain.length()) {
      int start = at;
      while (at < plain.length() && isDigit(plain.charAt(at))) {
        at++;
      }
      if (at > start) {
        splits.add(
            new SerialNumber(
                plain.substring(0, start), plain.substring(start, at), plain.substring(at)));
      } else {
        at++;
      }
    }
    return splits;
  }

  /** As compared: capitals, single blanks, without a leading "S/N". */
  static String plain(String text) {
    if (isPlainAlready(text)) {
      return text;
    }
    String upper = BLANKS.matcher(text.strip().toUpperCase(Locale.ROOT)).replaceAll(" ");
    return LEADING.matcher(upper).replaceFirst("");
  }

  /** Most are: this is asked of hundreds of thousands. */
  private static boolean isPlainAlready(String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean plain = c >= 'A' && c <= 'Z' || isDigit(c) || c == '-' || c == '/';
      if (!plain) {
        return false;
      }
    }
    return true;
  }

  /** Whether a serial number as recorded tells nothing that could be compared. */
  static boolean isUnreadable(String plain) {
    return plain.chars().noneMatch(c -> isDigit((char) c))
        || NOTHING.contains(plain)
        || plain.contains("UNKNOWN")
        || plain.contains("ILLEGIBLE")
        || plain.chars().anyMatch(c -> !isPlain((char) c));
  }

  /** Letters and digits alone: "VT 3107" and "VT-3107" may be one plate read by two people. */
  static String loose(String text) {
    StringBuilder loose = new StringBuilder(text.length());
    for (int i = 0; i < text.length(); i++) {
      if (Character.isLetterOrDigit(text.charAt(i))) {
        loose.append(Character.toUpperCase(text.charAt(i)));
      }
    }
    return loose.toString();
  }

  /** Compares numbers of any length, whatever zeros they begin with. */
  static int compare(String digits, String other) {
    String one = withoutZeros(digits);
    String two = withoutZeros(other);
    return one.length() == two.length()
        ? one.compareTo(two)
        : Integer.compare(one.length(), two.length());
  }

  String text() {
    return before + digits + after;
  }

  static String withoutZeros(String digits) {
    int start = 0;
    while (start < digits.length() - 1 && digits.charAt(start) == '0') {
      start++;
    }
    return digits.substring(start);
  }

  private static boolean isPlain(char c) {
    return Character.isLetterOrDigit(c) || " -./#()".indexOf(c) >= 0;
  }

  static boolean isDigit(char c) {
    return c >= '0' && c <= '9';
  }
}
