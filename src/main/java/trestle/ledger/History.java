package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;

/** Reading back what was filed: lines of an operator's ledger, and what corrects what. */
@ApplicationScoped
public class History {
  @Inject HistoryRepository repository;

  /** A record and its place in the ledger. */
  public record Place(UUID id, long seq) {}

  /**
   * Lines before a sequence, the newest first.
   *
   * @param aircraftId of one aircraft, or null for all
   */
  public List<Line> before(UUID operatorId, UUID aircraftId, long before, int most) {
    return repository.before(operatorId, aircraftId, before, most);
  }

  /** The line of a record, of whatever kind. */
  public Optional<Line> ofRecord(UUID operatorId, UUID recordId) {
    return repository.ofRecord(operatorId, recordId);
  }

  /** The record that each of these corrects, by record. */
  public Map<UUID, Place> corrected(UUID operatorId, Collection<Line> lines) {
    return repository.places(operatorId, lines, true);
  }

  /** The record that corrects each of these, by record; others are left out. */
  public Map<UUID, Place> corrections(UUID operatorId, Collection<Line> lines) {
    return repository.places(operatorId, lines, false);
  }

  /** A record with all that it corrects and all that corrects it, as filed, the first first. */
  public List<Line> versions(UUID operatorId, Line line) {
    return repository.versions(operatorId, line);
  }

  /**
   * Lines of some kinds and aircraft that were filed after a sequence, the newest first.
   *
   * @param aircraftIds whose; with none there are none
   */
  public List<Line> after(
      UUID operatorId,
      Collection<UUID> aircraftIds,
      Collection<String> kinds,
      long after,
      int most) {
    return aircraftIds.isEmpty()
        ? List.of()
        : repository.after(operatorId, aircraftIds, kinds, after, most);
  }

  /** What was signed of records, by record: the signatures' lines. */
  public List<Line> signaturesOf(UUID operatorId, Collection<Line> lines) {
    return repository.signatures(operatorId, lines);
  }
}
