package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.RevokingCheck;
import trestle.ledger.View;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * Of several extensions of a deferral the last is taken away first: it begins where another ended.
 */
@ApplicationScoped
class ExtensionRevoking implements RevokingCheck {
  @Inject DeferralRepository repository;

  @Override
  public Set<String> kinds() {
    return Set.of("deferral-extension");
  }

  @Override
  public void check(Viewer viewer, UUID recordId) {
    DeferralExtended row = repository.row(DeferralExtended.class, recordId).orElseThrow();
    boolean later =
        repository.extensions(List.of(row.defectEntryId), View.EVERYTHING).stream()
            .anyMatch(other -> other.ledgerSeq() > row.ledgerSeq());
    if (later) {
      throw new Refusal("", "It was extended once more since: take that extension away first.");
    }
  }
}
