package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.UUID;
import trestle.fleet.RevokingCheck;
import trestle.web.Viewer;

/** A line stays left open once its order is closed: the release says so. */
@ApplicationScoped
class LineDeferralRevoking implements RevokingCheck {
  @Inject WorkRepository repository;
  @Inject OrderBook book;

  @Override
  public String kind() {
    return "line-deferral";
  }

  @Override
  public void check(Viewer viewer, UUID recordId) {
    LineDeferral row = repository.row(LineDeferral.class, recordId).orElseThrow();
    WorkOrders.notOver(book.order(viewer, repository.orderOf(row.lineEntryId)));
  }
}
