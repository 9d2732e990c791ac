package trestle.programme;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/** Which programme some aircraft followed, in which revision, on any day. */
final class Followings {
  private final Map<UUID, List<ProgrammeRepository.Adoption>> byAircraft = new HashMap<>();

  /**
   * @param adoptions oldest first
   */
  Followings(Collection<ProgrammeRepository.Adoption> adoptions) {
    adoptions.forEach(
        one -> byAircraft.computeIfAbsent(one.aircraftId(), id -> new ArrayList<>()).add(one));
  }

  /** What an aircraft follows at the end of the view, or null. */
  ProgrammeRepository.Adoption now(UUID aircraft) {
    List<ProgrammeRepository.Adoption> all = byAircraft.getOrDefault(aircraft, List.of());
    return all.isEmpty() ? null : all.get(all.size() - 1);
  }

  /** The programmes followed at the end of the view. */
  List<UUID> programmes() {
    return byAircraft.keySet().stream().map(id -> now(id).programmeId()).distinct().toList();
  }

  /** Up to which revision an aircraft had taken its programme up on a day. */
  long under(UUID aircraft, LocalDate day) {
    List<ProgrammeRepository.Adoption> all = byAircraft.getOrDefault(aircraft, List.of());
    for (int i = all.size() - 1; i >= 0; i--) {
      if (!all.get(i).on().isAfter(day)) {
        return all.get(i).under();
      }
    }
    return Long.MAX_VALUE;
  }
}
