package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What was filed of requirements, as it is asked for; {@link Requirements} files it. */
@ApplicationScoped
public class RequirementRecords {
  @Inject RequirementRepository repository;
  @Inject ProgrammeRepository programmes;

  /** A requirement and everything that was said of it, the oldest revision first. */
  public record History(RequirementSheet requirement, List<Revision> revisions) {

    public Revision latest() {
      return revisions.get(revisions.size() - 1);
    }

    /** The revision in force on a day, or null when none is yet. */
    public Revision inForce(LocalDate day) {
      return new Chain<>(revisions, Revision::inForceFrom).inForce(day);
    }

    /** What those say who took its programme up to a revision, or null where that had it not. */
    Revision under(Issued taken) {
      long under = taken == null ? 0 : taken.sequence();
      return revisions.stream()
          .filter(revision -> revision.under() <= under)
          .reduce((earlier, later) -> later)
          .orElse(null);
    }
  }

  /** Whose requirements are asked for, and which besides. */
  public record Scope(
      Collection<UUID> programmes,
      Collection<UUID> aircraft,
      Collection<UUID> components,
      Collection<String> partNumbers,
      Collection<UUID> requirements) {}

  /** Whose each requirement is, of these owners and of these ids. */
  @Reading
  public List<RequirementSheet> scopes(Viewer viewer, Scope asked) {
    return repository.scopes(asked);
  }

  /** The requirement with all its revisions, known now. */
  @Reading
  public History history(Viewer viewer, UUID requirementId) {
    return history(viewer, requirementId, View.asAt(LocalDate.MAX));
  }

  /** The requirement with the revisions that were known in a view. */
  @Reading
  public History history(Viewer viewer, UUID requirementId, View view) {
    List<RequirementRepository.Revised> all = repository.revisions(Set.of(requirementId), view);
    if (all.isEmpty()) {
      throw new NotHere("There is no such requirement here.");
    }
    return new History(
        all.get(0).requirement(),
        all.stream().map(RequirementRepository.Revised::revision).toList());
  }

  /** The latest revision of each requirement of a programme, in the order they were created. */
  @Reading
  public List<History> ofProgramme(Viewer viewer, UUID programmeId, View view) {
    return histories(repository.revisions(Set.of(programmeId), Set.of(), Set.of(), Set.of(), view));
  }

  /** The requirements of one aircraft of its own. */
  @Reading
  public List<History> ofAircraft(Viewer viewer, UUID aircraftId, View view) {
    return histories(repository.revisions(Set.of(), Set.of(aircraftId), Set.of(), Set.of(), view));
  }

  /** The requirements of one component of its own. */
  @Reading
  public List<History> ofComponent(Viewer viewer, UUID componentId, View view) {
    return histories(repository.revisions(Set.of(), Set.of(), Set.of(componentId), Set.of(), view));
  }

  /** The requirements of a part number. */
  @Reading
  public List<History> ofPart(Viewer viewer, String partNumber, View view) {
    return histories(
        repository.revisions(
            Set.of(),
            Set.of(),
            Set.of(),
            Set.of(partNumber.strip().toLowerCase(Locale.ROOT)),
            view));
  }

  /**
   * The requirements that one could cover or be due with: of the same owner, and of the programme
   * that owner follows; about the same kind of subject where that is said.
   */
  @Reading
  public List<History> nameable(Viewer viewer, RequirementSheet requirement, View view) {
    Set<UUID> programme = new HashSet<>();
    Set<UUID> aircraft = new HashSet<>();
    Set<UUID> parts = new HashSet<>();
    Set<String> numbers = new HashSet<>();
    if (requirement.partNumber() != null) {
      numbers.add(requirement.partNumber().toLowerCase(Locale.ROOT));
    } else if (requirement.programmeId() != null) {
      programme.add(requirement.programmeId());
    } else if (requirement.aircraftId() != null) {
      aircraft.add(requirement.aircraftId());
      programmes.adoptions(aircraft, view).stream()
          .reduce((earlier, later) -> later)
          .ifPresent(adoption -> programme.add(adoption.programmeId()));
    } else {
      parts.add(requirement.componentId());
    }
    return histories(repository.revisions(programme, aircraft, parts, numbers, view)).stream()
        .filter(other -> !other.latest().withdrawn())
        .filter(
            other ->
                requirement.subject() == null
                    || other.requirement().subject().equals(requirement.subject()))
        .filter(other -> !other.requirement().id().equals(requirement.id()))
        .toList();
  }

  private static List<History> histories(List<RequirementRepository.Revised> revised) {
    Map<RequirementSheet, List<Revision>> all = new LinkedHashMap<>();
    revised.stream()
        .sorted(Comparator.comparingLong(one -> one.revision().sequence()))
        .forEach(
            one ->
                all.computeIfAbsent(one.requirement(), id -> new ArrayList<>())
                    .add(one.revision()));
    return all.entrySet().stream()
        .map(entry -> new History(entry.getKey(), entry.getValue()))
        .toList();
  }
}
