package trestle.apron;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import trestle.defects.DefectLine;
import trestle.standing.InWords;

/**
 * What an open deferral does not allow.
 *
 * @param forbids {@code hire}, {@code IFR}, {@code night} or words of its own
 * @param what the record, as a page names it
 * @param about continues the sentence
 */
record Restriction(String forbids, String what, String about, String link) {

  /** One for each kind of flight that a deferral forbids. */
  static List<Restriction> of(DefectLine defect) {
    List<Restriction> restrictions = new ArrayList<>();
    for (String kind : kinds(defect.forbids())) {
      restrictions.add(
          new Restriction(
              kind,
              "Defect " + defect.no() + " is deferred",
              ", " + new InWords(null).not(kind) + ": " + defect.limitation(),
              defect.decided().isEmpty() ? defect.link() : defect.decided()));
    }
    return restrictions;
  }

  /** The kinds in what a person wrote: "night, IFR", "for hire and at night". */
  static List<String> kinds(String typed) {
    List<String> kinds = new ArrayList<>();
    for (String part : typed.split("[,;/]| and | or ")) {
      String kind = part.strip().replaceFirst("(?i)^(for|at|in|under) +", "");
      String usual =
          switch (kind.toLowerCase(Locale.ROOT)) {
            case "ifr" -> "IFR";
            case "hire", "night" -> kind.toLowerCase(Locale.ROOT);
            default -> kind;
          };
      if (!usual.isEmpty() && !kinds.contains(usual)) {
        kinds.add(usual);
      }
    }
    return kinds;
  }
}
