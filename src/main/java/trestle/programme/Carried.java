package trestle.programme;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.standing.Subject;

/** Which requirements each subject carries on a day. */
final class Carried {

  /** A programme as taken up to one of its revisions. */
  private record TakenUp(UUID programme, long under) {}

  final Followings followed;
  private final Map<UUID, Set<UUID>> excluded;
  private final Map<UUID, Set<String>> modified;
  private final Map<UUID, List<RequirementRepository.Revised>> ofProgrammes = new HashMap<>();
  private final Map<Object, List<RequirementRepository.Revised>> byOwner = new HashMap<>();

  Carried(
      Followings followed,
      Map<UUID, Set<UUID>> excluded,
      Map<UUID, Set<String>> modified,
      List<RequirementRepository.Revised> revisions,
      LocalDate day) {
    this.followed = followed;
    this.excluded = excluded;
    this.modified = modified;
    Map<Object, List<RequirementRepository.Revised>> begun = new HashMap<>();
    for (RequirementRepository.Revised revised : revisions) {
      if (!revised.revision().inForceFrom().isAfter(day)) {
        UUID programme = revised.requirement().programmeId();
        (programme == null
                ? begun.computeIfAbsent(revised.requirement().owner(), id -> new ArrayList<>())
                : ofProgrammes.computeIfAbsent(programme, id -> new ArrayList<>()))
            .add(revised);
      }
    }
    begun.forEach((owner, all) -> byOwner.put(owner, inForce(all)));
  }

  List<Revision> by(Subject subject, String partNumber) {
    List<Revision> carried = new ArrayList<>();
    UUID aircraft = subject.aircraftId();
    if (aircraft != null) {
      add(carried, taken(aircraft), subject, excluded.getOrDefault(aircraft, Set.of()));
      add(carried, of(aircraft), subject, Set.of());
    }
    if (!subject.isAircraft()) {
      of(subject.id()).forEach(revised -> carried.add(revised.revision()));
      if (partNumber != null) {
        of(partNumber.toLowerCase(Locale.ROOT)).forEach(revised -> carried.add(revised.revision()));
      }
    }
    Set<String> codes = aircraft == null ? null : modified.get(aircraft);
    carried.removeIf(revision -> !revision.terms().where().holds(codes));
    return carried;
  }

  private List<RequirementRepository.Revised> of(Object owner) {
    return byOwner.getOrDefault(owner, List.of());
  }

  /** What an aircraft's programme asks in the revision that it took up. */
  private List<RequirementRepository.Revised> taken(UUID aircraft) {
    ProgrammeRepository.Adoption now = followed.now(aircraft);
    if (now == null) {
      return List.of();
    }
    return byOwner.computeIfAbsent(
        new TakenUp(now.programmeId(), now.under()),
        key ->
            inForce(
                ofProgrammes.getOrDefault(now.programmeId(), List.of()).stream()
                    .filter(revised -> revised.revision().under() <= now.under())
                    .toList()));
  }

  /** Of each requirement the last revision, unless that ended it. */
  private static List<RequirementRepository.Revised> inForce(
      Collection<RequirementRepository.Revised> begun) {
    Map<UUID, RequirementRepository.Revised> inForce = new HashMap<>();
    begun.forEach(revised -> inForce.merge(revised.requirement().id(), revised, Carried::later));
    return inForce.values().stream()
        .filter(revised -> !revised.revision().withdrawn())
        .sorted(Comparator.comparing(revised -> revised.requirement().id()))
        .toList();
  }

  private static RequirementRepository.Revised later(
      RequirementRepository.Revised one, RequirementRepository.Revised other) {
    return one.revision().sequence() > other.revision().sequence() ? one : other;
  }

  private static void add(
      List<Revision> carried,
      List<RequirementRepository.Revised> all,
      Subject subject,
      Set<UUID> without) {
    for (RequirementRepository.Revised revised : all) {
      if (revised.requirement().subject().equals(subject.kind())
          && !without.contains(revised.requirement().id())) {
        carried.add(revised.revision());
      }
    }
  }
}
