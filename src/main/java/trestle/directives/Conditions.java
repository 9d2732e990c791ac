package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Configurations;
import trestle.fleet.Configurations.Embodied;
import trestle.ledger.View;
import trestle.web.Viewer;

/**
 * Whether the modification that a paragraph depends on is there, or is not there, as the aircraft's
 * configuration records it. What is not recorded is never a no: somebody has to look.
 */
@ApplicationScoped
class Conditions {
  @Inject Configurations configurations;

  /**
   * How a paragraph's condition stands.
   *
   * @param holds {@link Covered#UNREADABLE} where the configuration does not say
   * @param since when that came to hold, or null
   */
  record Condition(Covered holds, Instant since) {
    static final Condition NONE = new Condition(Covered.YES, null);
    static final Condition NOT_RECORDED = new Condition(Covered.UNREADABLE, null);
  }

  /** What some aircraft's configurations say. */
  record Recorded(Map<UUID, Map<String, Embodied>> byAircraft) {

    /**
     * @param aircraft null for a part on the shelf
     */
    Condition of(ParagraphSheet paragraph, UUID aircraft) {
      if (paragraph.modification().isEmpty()) {
        return Condition.NONE;
      }
      String code = paragraph.modification().toUpperCase(Locale.ROOT);
      Embodied found =
          aircraft == null ? null : byAircraft.getOrDefault(aircraft, Map.of()).get(code);
      if (found == null) {
        return Condition.NOT_RECORDED;
      }
      boolean holds = found.embodied() == paragraph.modificationPresent();
      return new Condition(holds ? Covered.YES : Covered.NO, found.since());
    }
  }

  /** Not asked for where no paragraph depends on one. */
  Recorded of(
      Viewer viewer, List<ParagraphSheet> paragraphs, Collection<UUID> aircraftIds, View view) {
    boolean depends = paragraphs.stream().anyMatch(one -> !one.modification().isEmpty());
    Set<UUID> known = new HashSet<>(aircraftIds);
    known.remove(null);
    return new Recorded(
        depends && !known.isEmpty() ? configurations.recorded(viewer, known, view) : Map.of());
  }
}
