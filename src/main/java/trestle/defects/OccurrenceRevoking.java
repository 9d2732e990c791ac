package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.RevokingCheck;
import trestle.ledger.View;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** What was reported as an occurrence stays one while that report stands. */
@ApplicationScoped
class OccurrenceRevoking implements RevokingCheck {
  @Inject DefectRepository repository;

  @Override
  public Set<String> kinds() {
    return Set.of("safety-occurrence");
  }

  @Override
  public void check(Viewer viewer, UUID recordId) {
    boolean reported =
        repository.occurrenceReports(View.EVERYTHING).stream()
            .anyMatch(report -> report.occurrenceId.equals(recordId));
    if (reported) {
      throw new Refusal("", "Its report was sent: take the record of that away first.");
    }
  }
}
