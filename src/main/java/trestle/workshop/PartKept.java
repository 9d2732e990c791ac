package trestle.workshop;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import trestle.profiles.RuleProfile;
import trestle.web.Option;

/** The class of a part: what paper must come with it is said by class in the rule profile. */
public enum PartKept {
  COMPONENT("Component", "component"),
  STANDARD_PART("Standard part", "standard part"),
  MATERIAL("Material", "material"),
  OWNER_PRODUCED("Owner-produced part", "owner-produced");

  private final String label;
  private final String inProfile;

  PartKept(String label, String inProfile) {
    this.label = label;
    this.inProfile = inProfile;
  }

  public String label() {
    return label;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  public static PartKept parse(String word) {
    return valueOf(word.toUpperCase(Locale.ROOT).replace('-', '_'));
  }

  /** Each with the paper that the profile asks for. */
  static List<Option> options(RuleProfile profile) {
    return java.util.Arrays.stream(values())
        .map(
            one ->
                new Option(
                    one.word(),
                    one.label(),
                    one.evidence(profile).map(paper -> "Comes with: " + paper).orElse("")))
        .toList();
  }

  /**
   * What the profile asks for; empty where it says nothing of this class. An owner-produced part is
   * never without its data, whatever the profile leaves out (common practice, no source).
   */
  Optional<String> evidence(RuleProfile profile) {
    Optional<String> said =
        profile.partsEvidence().stream()
            .filter(one -> plain(one.partClass()).startsWith(plain(inProfile)))
            .map(RuleProfile.PartEvidence::evidence)
            .filter(words -> !words.isBlank())
            .findFirst();
    return said.isPresent() || this != OWNER_PRODUCED
        ? said
        : Optional.of("record of the data it was made to, and by whom");
  }

  private static String plain(String words) {
    return words.strip().toLowerCase(Locale.ROOT).replace('-', ' ');
  }
}
