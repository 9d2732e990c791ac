package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.UUID;
import trestle.fleet.RevokingCheck;
import trestle.web.Viewer;

/** A second look stands once its order is closed: the release rests on it. */
@ApplicationScoped
class LineInspectionRevoking implements RevokingCheck {
  @Inject WorkRepository repository;
  @Inject OrderBook book;

  @Override
  public String kind() {
    return "line-inspection";
  }

  @Override
  public void check(Viewer viewer, UUID recordId) {
    LineInspection row = repository.row(LineInspection.class, recordId).orElseThrow();
    LineWork work = repository.row(LineWork.class, row.lineWorkId).orElseThrow();
    WorkOrders.notOver(book.order(viewer, repository.orderOf(work.lineEntryId)));
  }
}
