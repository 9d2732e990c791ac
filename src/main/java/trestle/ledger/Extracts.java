package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import java.util.UUID;

/**
 * Finds the lines of an operator's ledger that concern a thing, up to a size of the ledger: what is
 * filed later does not change what is found. Call it within a transaction that speaks for the
 * operator.
 */
@ApplicationScoped
public class Extracts {
  @Inject ExtractRepository repository;

  /** Where a line stands, and of which record. */
  public record Mark(long seq, String kind, UUID recordId) {}

  /** All lines of an aircraft. */
  public List<Mark> ofAircraft(UUID operatorId, UUID aircraftId, long size) {
    return repository.ofAircraft(operatorId, aircraftId, size);
  }

  /** Lines of some kinds whose JSON has one of these values in a field. */
  public List<Mark> naming(
      UUID operatorId,
      Collection<String> kinds,
      String field,
      Collection<String> values,
      long size) {
    return values.isEmpty() ? List.of() : repository.naming(operatorId, kinds, field, values, size);
  }

  /** The lines at these sequences, in their order. */
  public List<Line> at(UUID operatorId, Collection<Long> seqs) {
    return seqs.isEmpty() ? List.of() : repository.at(operatorId, seqs);
  }

  /** Which of these records an operator's ledger has. */
  public Set<UUID> known(UUID operatorId, String kind, Collection<UUID> recordIds) {
    return recordIds.isEmpty() ? Set.of() : repository.known(operatorId, kind, recordIds);
  }
}
