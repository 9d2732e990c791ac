package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import java.util.UUID;

/** Filed rows of whatever kind, for what is done alike to all that can be taken away. */
@ApplicationScoped
public class Rows {
  @Inject HistoryRepository repository;

  /** A row that can be taken away; empty where there is none, or none of that sort. */
  public Optional<Revocable> revocable(String kind, UUID id) {
    return repository.row(kind, id).filter(Revocable.class::isInstance).map(Revocable.class::cast);
  }

  /**
   * The row that last took one of these away; null where none was. What is filed anew names it.
   *
   * @param column the entity's field by which only one stands
   */
  public UUID lastRevoking(Class<? extends Revocable> kind, String column, UUID value) {
    return repository.lastRevoking(kind, column, value);
  }

  public boolean isCorrected(Filed row) {
    return repository.isCorrected(row);
  }

  /** The row that one form has filed already, if it has. */
  public Optional<Filed> ofForm(String kind, UUID formKey) {
    return formKey == null ? Optional.empty() : repository.ofForm(kind, formKey);
  }
}
