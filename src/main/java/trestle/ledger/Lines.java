package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;

/**
 * The lines of an operator's ledger, in the order of their sequence. Streams hold few rows at a
 * time and belong to the caller's transaction: close them.
 */
@ApplicationScoped
public class Lines {
  @Inject LedgerRepository repository;

  /** All lines of a sequence above {@code after}, up to and with {@code upTo}. */
  public Stream<Line> all(UUID operatorId, long after, long upTo) {
    return repository.lines(operatorId, after, upTo);
  }

  /** The lines that belong to an aircraft's record, up to and with a sequence. */
  public Stream<Line> ofAircraft(UUID operatorId, UUID aircraftId, long upTo) {
    return repository.linesOfAircraft(operatorId, aircraftId, upTo);
  }

  /** The lines of these records, whatever their kind; some hundreds at a time. */
  public Stream<Line> ofRecords(UUID operatorId, Collection<UUID> recordIds, long upTo) {
    return repository.linesOfRecords(operatorId, recordIds, upTo);
  }

  public Optional<Line> ofRecord(UUID operatorId, UUID recordId) {
    try (Stream<Line> lines =
        repository.linesOfRecords(operatorId, java.util.List.of(recordId), Long.MAX_VALUE)) {
      return lines.findFirst();
    }
  }

  public Optional<Line> at(UUID operatorId, long seq) {
    try (Stream<Line> lines = repository.lines(operatorId, seq - 1, seq)) {
      return lines.findFirst();
    }
  }
}
