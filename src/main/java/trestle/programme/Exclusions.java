package trestle.programme;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;

/** Which requirements of their programme some aircraft did not carry, on any day. */
final class Exclusions {
  private final Map<UUID, Map<UUID, List<ProgrammeRepository.Exclusion>>> byAircraft =
      new HashMap<>();

  /**
   * @param rows in the order of filing: of those that hold on a day, the last counts
   */
  Exclusions(Collection<ProgrammeRepository.Exclusion> rows) {
    rows.forEach(
        row ->
            byAircraft
                .computeIfAbsent(row.aircraftId(), id -> new HashMap<>())
                .computeIfAbsent(row.requirementId(), id -> new ArrayList<>())
                .add(row));
  }

  /** Whether an aircraft did not carry a requirement on a day. */
  boolean hold(UUID aircraft, UUID requirement, LocalDate day) {
    return hold(
        byAircraft.getOrDefault(aircraft, Map.of()).getOrDefault(requirement, List.of()), day);
  }

  /** By aircraft, what it did not carry on a day. */
  Map<UUID, Set<UUID>> on(LocalDate day) {
    Map<UUID, Set<UUID>> excluded = new HashMap<>();
    byAircraft.forEach(
        (aircraft, requirements) ->
            requirements.forEach(
                (requirement, rows) -> {
                  if (hold(rows, day)) {
                    excluded.computeIfAbsent(aircraft, id -> new HashSet<>()).add(requirement);
                  }
                }));
    return excluded;
  }

  private static boolean hold(List<ProgrammeRepository.Exclusion> rows, LocalDate day) {
    boolean excluded = false;
    for (ProgrammeRepository.Exclusion row : rows) {
      if (!row.on().isAfter(day)) {
        excluded = !row.ended();
      }
    }
    return excluded;
  }
}
