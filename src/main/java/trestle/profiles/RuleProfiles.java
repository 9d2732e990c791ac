package trestle.profiles;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.profiles.RuleProfile.ClockBase;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** By which rules an operator goes, and an aircraft where it differs. */
@ApplicationScoped
public class RuleProfiles {
  @Inject ProfileRepository repository;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * The profile in force in a view.
   *
   * @param aircraftId whose; null for the operator's own
   */
  @Reading
  public RuleProfile of(Viewer viewer, UUID aircraftId, View view) {
    return read(aircraftId == null ? Set.of() : Set.of(aircraftId), view).get(aircraftId);
  }

  /** The profile in force for each of these aircraft, in one statement. */
  @Reading
  public Map<UUID, RuleProfile> ofAll(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, RuleProfile> profiles = read(new HashSet<>(aircraftIds), view);
    profiles.remove(null);
    return profiles;
  }

  /** The aircraft whose profile differs from their operator's. */
  @Reading
  public List<UUID> differing(Viewer viewer, View view) {
    Map<UUID, ProfileRevision> latest = new HashMap<>();
    repository.ofAircraft(view).forEach(revision -> latest.put(revision.aircraftId, revision));
    return latest.values().stream()
        .filter(revision -> !revision.ended)
        .map(revision -> revision.aircraftId)
        .toList();
  }

  /** All revisions of the operator's profile, or of one aircraft's own, oldest first. */
  @Reading
  public List<Revised> history(Viewer viewer, UUID aircraftId) {
    return repository.of(aircraftId).stream().map(RuleProfiles::revised).toList();
  }

  /**
   * Files a revision, the first one included; it moves the standing of every aircraft it is for.
   *
   * @return its id
   * @throws Stale when someone revised the same profile since the form was opened
   * @throws Refusal naming the fields that can't stand
   */
  @Filing
  public UUID revise(Viewer viewer, NewProfile asked) {
    repository.lock(viewer.operatorId());
    revisions.bump(
        viewer,
        asked.aircraftId() == null ? revisions.all(viewer).keySet() : Set.of(asked.aircraftId()));
    ProfileRevision before = repository.ofForm(asked.formKey());
    if (before != null) {
      return before.id();
    }
    checkLatest(asked);
    check(viewer, asked);
    ProfileRevision row = row(viewer, asked);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
    return row.id();
  }

  /** An example to go by, with the time base that is fixed already, if one is. */
  @Reading
  public RuleProfile chosen(Viewer viewer, UUID aircraftId, String key) {
    Example example = Examples.of(key);
    if (example == null) {
      throw new NotHere("There is no such example here.");
    }
    ClockBase fixed = fixedBase(aircraftId);
    return fixed == null ? example.profile() : example.profile().counting(fixed);
  }

  private void checkLatest(NewProfile asked) {
    List<ProfileRevision> all = repository.of(asked.aircraftId());
    UUID latest = all.isEmpty() ? null : all.get(all.size() - 1).id();
    if (!Objects.equals(latest, asked.revises())) {
      throw new Stale("Someone revised this rule profile since you opened this form.");
    }
  }

  private void check(Viewer viewer, NewProfile asked) {
    if (!viewer.isAny(Role.OWNER, Role.CONTROLLER)) {
      throw new Refusal("", "Rule profiles are filed by an owner or a controller.");
    }
    List<Refusal.Reason> reasons = ProfileCheck.of(asked);
    if (!reasons.isEmpty()) {
      throw new Refusal(reasons);
    }
    if (asked.profile() == null && (asked.aircraftId() == null || asked.revises() == null)) {
      throw new Refusal("example", "This goes by the operator’s rule profile already.");
    }
    ClockBase fixed = fixedBase(asked.aircraftId());
    if (asked.profile() != null && fixed != null && asked.profile().clockBase() != fixed) {
      throw new Refusal(
          "clock-base",
          "The days of deferrals are counted in "
              + (fixed == ClockBase.UTC ? "UTC" : "local time")
              + ": that is chosen once for the operator and stays.");
    }
  }

  /**
   * The time base is the operator's, and fixed by its first profile that is not a mere example (FAA
   * Order 8900.1, volume 4, chapter 4, as quoted).
   */
  private ClockBase fixedBase(UUID aircraftId) {
    List<RuleProfile> own =
        repository.of(null).stream().map(row -> ProfileJson.parse(row.says)).toList();
    if (aircraftId != null) {
      return own.isEmpty()
          ? Examples.plain().profile().clockBase()
          : own.get(own.size() - 1).clockBase();
    }
    return own.stream()
        .filter(profile -> !profile.example())
        .findFirst()
        .map(RuleProfile::clockBase)
        .orElse(null);
  }

  private ProfileRevision row(Viewer viewer, NewProfile asked) {
    ProfileRevision row = new ProfileRevision();
    row.aircraftId = asked.aircraftId();
    row.revises = asked.revises();
    row.startedFrom = asked.startedFrom();
    row.ended = asked.profile() == null;
    RuleProfile says = row.ended ? of(viewer, null, View.EVERYTHING) : asked.profile();
    row.says = ProfileJson.text(says);
    row.document = says.document();
    row.approvedBy = asked.approvedBy().strip();
    row.because(asked.reason().strip());
    row.happened(asked.from().atStartOfDay(viewer.zone()).toInstant(), asked.from());
    row.fromForm(asked.formKey());
    return row;
  }

  /** By aircraft; the operator's own under null. */
  private Map<UUID, RuleProfile> read(Set<UUID> aircraftIds, View view) {
    Map<UUID, ProfileRevision> latest = new HashMap<>();
    repository
        .inForce(aircraftIds, view)
        .forEach(revision -> latest.put(revision.aircraftId, revision));
    RuleProfile own =
        latest.containsKey(null)
            ? ProfileJson.parse(latest.get(null).says)
            : Examples.plain().profile();
    Map<UUID, RuleProfile> profiles = new HashMap<>();
    profiles.put(null, own);
    for (UUID id : aircraftIds) {
      ProfileRevision differing = latest.get(id);
      profiles.put(
          id, differing == null || differing.ended ? own : ProfileJson.parse(differing.says));
    }
    return profiles;
  }

  private static Revised revised(ProfileRevision row) {
    return new Revised(
        row.id(),
        row.aircraftId,
        row.revises,
        row.startedFrom,
        ProfileJson.parse(row.says),
        row.ended,
        row.happenedOn(),
        row.reason(),
        row.approvedBy,
        row.recordedBy(),
        row.recordedAt());
  }
}
