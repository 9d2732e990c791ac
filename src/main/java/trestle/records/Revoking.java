package trestle.records;

import java.util.Map;
import java.util.Set;
import trestle.signing.Signer;
import trestle.web.Role;

/**
 * Who takes records of a kind away, and as what they sign for it.
 *
 * @param signs null where nobody signs: nobody signed for the record either
 */
record Revoking(Set<Role> who, Role signs) {
  static final String STATEMENT =
      "I take this record away: it was filed by mistake, for the reason stated here.";

  private static final Set<Role> KEEPERS = Set.of(Role.OWNER, Role.CONTROLLER, Role.ENGINEER);
  private static final Revoking UNSIGNED = new Revoking(KEEPERS, null);
  private static final Revoking ENGINEER = new Revoking(Set.of(Role.ENGINEER), Role.ENGINEER);
  private static final Revoking PILOT = new Revoking(Set.of(Role.PILOT), Role.PILOT);

  static final Map<String, Revoking> BY_KIND =
      Map.ofEntries(
          Map.entry("alternative-method", UNSIGNED),
          Map.entry("directive-search", UNSIGNED),
          Map.entry("safety-occurrence", UNSIGNED),
          Map.entry("occurrence-report", UNSIGNED),
          Map.entry(
              "deferral-extension", new Revoking(Set.of(Role.ENGINEER, Role.CONTROLLER), null)),
          Map.entry("licence", new Revoking(Set.of(Role.OWNER, Role.CONTROLLER), null)),
          Map.entry("equipment", UNSIGNED),
          Map.entry("break-explanation", UNSIGNED),
          Map.entry("stated-rate", UNSIGNED),
          Map.entry("programme-adoption", new Revoking(Set.of(Role.OWNER, Role.CONTROLLER), null)),
          Map.entry(
              "requirement-exclusion", new Revoking(Set.of(Role.OWNER, Role.CONTROLLER), null)),
          Map.entry("directive-assessment", UNSIGNED),
          Map.entry("defect-triage", ENGINEER),
          Map.entry("defect-repeat", UNSIGNED),
          Map.entry("reading-limit", UNSIGNED),
          Map.entry("pilot-work-rule", UNSIGNED),
          Map.entry("check-flight", new Revoking(Set.of(Role.PILOT, Role.ENGINEER), null)),
          Map.entry("line-photo", UNSIGNED),
          Map.entry("line-inspection", ENGINEER),
          Map.entry("line-deferral", ENGINEER),
          Map.entry("pilot-work", PILOT),
          Map.entry("pre-flight-inspection", PILOT),
          Map.entry("acceptance", PILOT));

  boolean isSigned() {
    return signs != null;
  }

  /** "an engineer", "an owner, controller or engineer". */
  String whoWords() {
    return who.size() == 1
        ? "Only " + (signs == Role.PILOT ? "a pilot" : "an engineer") + " takes this away."
        : "Your roles here do not let you take this away.";
  }

  /** A pilot's own work is under a licence; what is signed before a flight need not be. */
  Signer signer(String kind, String licence) {
    return signs == Role.ENGINEER
        ? Signer.engineer(licence)
        : Signer.pilot(licence, kind.equals("pilot-work"));
  }
}
