package trestle.fleet;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** An aircraft's modifications, its equipment and its empty weight. */
@ApplicationScoped
public class Configurations {
  @Inject ConfigurationRepository repository;
  @Inject AircraftRepository forms;
  @Inject Revisions revisions;
  @Inject Filings filings;

  /**
   * What is to hold of a modification or repair.
   *
   * @param id of one that is here already, or null
   * @param reason why it changes; needed where it is here already
   */
  public record NewModification(
      UUID id,
      String code,
      String title,
      boolean repair,
      boolean major,
      String approval,
      String formReference,
      String systems,
      String remarks,
      boolean embodied,
      Instant at,
      String reason,
      UUID formKey) {}

  /** What is to hold of a piece of equipment; the id of one that is here already, or null. */
  public record NewEquipment(
      UUID id,
      String name,
      String state,
      String placard,
      String remarks,
      Instant at,
      UUID formKey) {}

  /**
   * A weighing, or a change since.
   *
   * @param corrects an entry that was wrong, or null
   * @param isVoid whether that one is taken out and nothing put in its place
   */
  public record NewWeight(
      boolean weighing,
      String what,
      BigDecimal weight,
      BigDecimal arm,
      String weightUnit,
      String armUnit,
      String reference,
      Instant at,
      UUID corrects,
      boolean isVoid,
      String reason,
      UUID formKey) {}

  @Reading
  public Configuration of(Viewer viewer, UUID aircraftId, View view) {
    return of(viewer, List.of(aircraftId), view).get(aircraftId);
  }

  /** Of several aircraft; three statements. */
  @Reading
  public Map<UUID, Configuration> of(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, Configuration> all = new HashMap<>();
    List<Modification> modifications = repository.modifications(aircraftIds, view);
    List<Equipment> equipment = repository.equipment(aircraftIds, view);
    List<WeightEntry> weights = repository.weights(aircraftIds, view);
    for (UUID id : aircraftIds) {
      all.put(
          id,
          new Configuration(
              modifications.stream()
                  .filter(row -> row.aircraftId.equals(id))
                  .map(Modification::sheet)
                  .toList(),
              equipment.stream()
                  .filter(row -> row.aircraftId.equals(id))
                  .map(Equipment::sheet)
                  .toList(),
              EmptyWeight.of(
                  weights.stream()
                      .filter(row -> row.aircraftId.equals(id))
                      .map(WeightEntry::entry)
                      .toList())));
    }
    return all;
  }

  /** The codes of the modifications embodied on each of these aircraft; one statement. */
  @Reading
  public Map<UUID, Set<String>> codes(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, Set<String>> codes = new HashMap<>();
    aircraftIds.forEach(id -> codes.put(id, new HashSet<>()));
    repository.modifications(aircraftIds, view).stream()
        .filter(row -> row.embodied)
        .forEach(row -> codes.get(row.aircraftId).add(row.code));
    return codes;
  }

  /** Whether a modification is there, and since when that holds. */
  public record Embodied(boolean embodied, Instant since) {}

  /** What is recorded of modifications on each of these aircraft, by code; one statement. */
  @Reading
  public Map<UUID, Map<String, Embodied>> recorded(
      Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, Map<String, Embodied>> recorded = new HashMap<>();
    repository
        .modifications(aircraftIds, view)
        .forEach(
            row ->
                recorded
                    .computeIfAbsent(row.aircraftId, id -> new HashMap<>())
                    .put(row.code, new Embodied(row.embodied, row.happenedAt())));
    return recorded;
  }

  @Filing
  public UUID state(Viewer viewer, UUID aircraftId, NewModification asked) {
    filings.notLater(asked.at(), "on");
    revisions.bump(viewer, aircraftId);
    var before = forms.ofForm(Modification.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().modificationId;
    }
    List<Modification> here = repository.modifications(List.of(aircraftId), View.EVERYTHING);
    boolean known = here.stream().anyMatch(row -> row.modificationId.equals(asked.id()));
    if (asked.id() != null) {
      existing(known, "modification");
      Filings.reasonNeeded(asked.reason());
    }
    boolean taken =
        here.stream()
            .anyMatch(
                row -> row.code.equals(asked.code()) && !row.modificationId.equals(asked.id()));
    if (taken) {
      throw new Refusal("code", "Code " + asked.code() + " is on this aircraft already.");
    }
    Modification row = new Modification();
    row.modificationId = asked.id() == null ? UuidCreator.getTimeOrderedEpoch() : asked.id();
    row.aircraftId = aircraftId;
    row.code = asked.code();
    row.title = asked.title();
    row.kind = asked.repair() ? "repair" : "modification";
    row.major = asked.major();
    row.approval = asked.approval();
    row.formReference = asked.formReference();
    row.systems = asked.systems();
    row.remarks = asked.remarks();
    row.embodied = asked.embodied();
    row.because(asked.reason());
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    return row.modificationId;
  }

  @Filing
  public UUID state(Viewer viewer, UUID aircraftId, NewEquipment asked) {
    filings.notLater(asked.at(), "on");
    if (asked.state().equals("inoperative") && asked.placard().isBlank()) {
      throw new Refusal("placard", "Placard is needed for equipment that is inoperative.");
    }
    revisions.bump(viewer, aircraftId);
    var before = forms.ofForm(Equipment.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().equipmentId;
    }
    if (asked.id() != null) {
      existing(
          repository.equipment(List.of(aircraftId), View.EVERYTHING).stream()
              .anyMatch(row -> row.equipmentId.equals(asked.id())),
          "equipment");
    }
    Equipment row = new Equipment();
    row.equipmentId = asked.id() == null ? UuidCreator.getTimeOrderedEpoch() : asked.id();
    row.aircraftId = aircraftId;
    row.name = asked.name();
    row.state = asked.state();
    row.placard = asked.placard();
    row.remarks = asked.remarks();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    return row.equipmentId;
  }

  @Filing
  public UUID weigh(Viewer viewer, UUID aircraftId, NewWeight asked) {
    filings.notLater(asked.at(), "on");
    revisions.bump(viewer, aircraftId);
    var before = forms.ofForm(WeightEntry.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    WeightEntry row = new WeightEntry();
    row.aircraftId = aircraftId;
    row.kind = asked.weighing() ? "weighing" : "change";
    row.what = asked.what();
    row.weight = asked.weight();
    row.arm = asked.arm();
    row.weightUnit = asked.weightUnit();
    row.armUnit = asked.armUnit();
    row.reference = asked.reference();
    row.isVoid = asked.isVoid();
    if (asked.corrects() != null) {
      WeightEntry original =
          filings.correctable(WeightEntry.class, asked.corrects(), asked.reason());
      existing(original.aircraftId.equals(aircraftId), "weight");
      row.correct(asked.corrects(), asked.reason());
    }
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    mustAddUp(aircraftId, row);
    filings.file(viewer, row);
    return row.id();
  }

  /**
   * The whole series with the new entry in its place: what it makes of later changes counts too.
   */
  private void mustAddUp(UUID aircraftId, WeightEntry added) {
    List<WeightEntry> rows =
        new ArrayList<>(repository.weights(List.of(aircraftId), View.EVERYTHING));
    rows.removeIf(row -> row.id().equals(added.corrects()));
    if (!added.isVoid) {
      int place = 0;
      while (place < rows.size() && !rows.get(place).happenedAt().isAfter(added.happenedAt())) {
        place++;
      }
      rows.add(place, added);
    }
    try {
      EmptyWeight.of(rows.stream().map(WeightEntry::entry).toList());
    } catch (IllegalArgumentException e) {
      throw new Refusal("weight", e.getMessage());
    }
  }

  private static void existing(boolean known, String what) {
    if (!known) {
      throw new NotHere("There is no such " + what + " on this aircraft.");
    }
  }
}
