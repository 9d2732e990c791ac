package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.defects.PhotoDraft;
import trestle.defects.Photos;
import trestle.fleet.Revisions;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;

/** Pictures of lines: the old part, the new one, what was found. */
@ApplicationScoped
public class LinePhotos {
  static final int MOST_WORDS = 200;

  @Inject Photos photos;
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Revisions revisions;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * Adds pictures to a line, until its order is closed.
   *
   * @param words what they show, or ""
   * @return the ids of their records; none where this form has filed them already
   */
  @Filing
  public List<UUID> add(
      Viewer viewer, UUID lineId, List<PhotoDraft> pictures, String words, UUID formKey) {
    if (!viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)) {
      throw new Refusal("", "Photos of a line are added by owners, controllers and engineers.");
    }
    revisions.bump(viewer, book.ofLine(viewer, lineId).order().aircraftId());
    if (repository.ofForm(LinePhoto.class, formKey).isPresent()) {
      return List.of();
    }
    WorkOrderSheet order = book.ofLine(viewer, lineId);
    WorkOrders.notOver(order);
    OrderLine line = OrderBook.line(order, lineId);
    String said = words == null ? "" : words.strip();
    check(line, pictures, said);
    Instant now = clock.instant();
    List<LinePhoto> rows = new ArrayList<>();
    for (String sha : photos.keep(viewer, pictures)) {
      LinePhoto row = new LinePhoto();
      row.aircraftId = order.order().aircraftId();
      row.lineEntryId = line.line().id();
      row.photo = sha;
      row.words = said;
      row.takerName = viewer.personName();
      row.happened(now, viewer.dateOf(now));
      row.fromForm(rows.isEmpty() ? formKey : null);
      rows.add(row);
    }
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), rows);
    return rows.stream().map(LinePhoto::id).toList();
  }

  private static void check(OrderLine line, List<PhotoDraft> pictures, String words) {
    if (pictures.isEmpty()) {
      throw new Refusal(Photos.FIELD, "Photos must be chosen: one or more.");
    }
    if (words.length() > MOST_WORDS) {
      throw new Refusal(
          "photo-words", "What they show must be at most " + MOST_WORDS + " characters.");
    }
    for (PhotoDraft picture : pictures) {
      if (line.photos().stream().anyMatch(one -> one.sha().equals(picture.sha256()))) {
        throw new Refusal(Photos.FIELD, "Photos must be new: one of these is on the line already.");
      }
    }
  }
}
