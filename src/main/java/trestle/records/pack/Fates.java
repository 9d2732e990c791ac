package trestle.records.pack;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.HashSet;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;

/**
 * What becomes of each line of a pack, asked in their order: filed anew, or kept as text alone.
 *
 * <p>Filed is what totals, due points, directive status, configuration and history are told from.
 * Kept as text are signatures and what rests on them (work orders, releases, inspections signed,
 * triage, pre-flight, acceptance): a transcription is not a certification, and nobody here signed
 * them. Kept as text too is what names something that was not handed over.
 */
final class Fates {
  /** Of components that are here for their history alone. */
  private static final Set<String> OF_HISTORY = Set.of("component", "fitment", "removal");

  /** Everything filed anew, of the subject. */
  static final Set<String> FILED =
      Set.of(
          "aircraft-particulars",
          "aircraft-position",
          "alternative-method",
          "abnormal-event",
          "break-explanation",
          "component",
          "component-event",
          "component-meter-reading",
          "component-opening",
          "component-overhaul",
          "compliance",
          "counter-opening",
          "defect",
          "defect-repeat",
          "deferral",
          "deferral-extension",
          "directive",
          "directive-assessment",
          "directive-paragraph",
          "equipment",
          "fitment",
          "fuel-and-oil",
          "fuel-and-oil-arrangement",
          "granted-extension",
          "grounding",
          "journey-log-entry",
          "meter-change",
          "modification",
          "part-sheet",
          "programme",
          "programme-adoption",
          "programme-revision",
          "reading-limit",
          "rectification",
          "removal",
          "requirement-exclusion",
          "requirement-revision",
          "stated-rate",
          "task-list",
          "weight-entry");

  /** Of the aircraft that is handed over; of one that a part was on before they say nothing. */
  private static final Set<String> OF_THE_AIRCRAFT =
      Set.of(
          "abnormal-event",
          "defect",
          "defect-repeat",
          "deferral",
          "deferral-extension",
          "rectification",
          "programme-adoption");

  private final Checked pack;
  private final Set<String> parts;
  private final Set<String> known;
  private final Set<String> aircraft;
  private final Set<String> requirements;
  private final Set<String> asText = new HashSet<>();

  Fates(Checked pack) {
    this.pack = pack;
    parts = words(pack.parts());
    known = words(pack.history());
    known.addAll(parts);
    aircraft = words(pack.aircraft());
    requirements = words(pack.requirements().keySet());
  }

  boolean isFiled(String kind, JsonNode json) {
    boolean filed = FILED.contains(kind) && stands(kind, json);
    if (!filed) {
      asText.add(json.path("id").asText());
      if (json.has("entry_id")) {
        asText.add(json.path("entry_id").asText());
      }
    }
    return filed;
  }

  private boolean stands(String kind, JsonNode json) {
    return follows(json, "corrects")
        && follows(json, "revises")
        && follows(json, "fitment_id")
        && follows(json, "deferral_id")
        && follows(json, "defect_entry_id")
        && follows(json, "after_voided")
        && among(json, "aircraft_id", aircraft)
        && among(json, "assembly_id", known)
        && among(json, "requirement_id", requirements)
        && among(json, "with_requirement_id", requirements)
        && (kind.equals("defect")
            || among(json, "component_id", OF_HISTORY.contains(kind) ? known : parts))
        && (!OF_THE_AIRCRAFT.contains(kind)
            || json.path("aircraft_id").asText().equals(pack.subject().id().toString()))
        && !(kind.equals("abnormal-event")
            && pack.inspected().contains(json.path("entry_id").asText()));
  }

  private boolean follows(JsonNode json, String field) {
    return !json.hasNonNull(field) || !asText.contains(json.get(field).asText());
  }

  private static boolean among(JsonNode json, String field, Set<String> ids) {
    return !json.hasNonNull(field) || ids.contains(json.get(field).asText());
  }

  private static Set<String> words(Set<UUID> ids) {
    return ids.stream().map(UUID::toString).collect(Collectors.toCollection(HashSet::new));
  }
}
