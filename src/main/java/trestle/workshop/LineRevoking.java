package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.RevokingCheck;
import trestle.web.Viewer;

/**
 * A second look, a line left open and its photos stand once their order is closed: the release
 * rests on them.
 */
@ApplicationScoped
class LineRevoking implements RevokingCheck {
  @Inject WorkRepository repository;
  @Inject OrderBook book;

  @Override
  public Set<String> kinds() {
    return Set.of("line-inspection", "line-deferral", "line-photo");
  }

  @Override
  public void check(Viewer viewer, UUID recordId) {
    WorkOrders.notOver(book.order(viewer, repository.orderOf(line(recordId))));
  }

  private UUID line(UUID recordId) {
    Optional<UUID> worked =
        repository
            .row(LineInspection.class, recordId)
            .flatMap(look -> repository.row(LineWork.class, look.lineWorkId))
            .map(work -> work.lineEntryId);
    return worked
        .or(() -> repository.row(LineDeferral.class, recordId).map(row -> row.lineEntryId))
        .or(() -> repository.row(LinePhoto.class, recordId).map(row -> row.lineEntryId))
        .orElseThrow();
  }
}
