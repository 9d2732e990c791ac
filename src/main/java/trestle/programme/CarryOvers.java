package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.standing.DueItem;
import trestle.standing.LastDone;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * Another programme, or the next revision of one as a programme of its own: what was gathered since
 * the work was last done under the old one counts under the new. "Time in service, calendar times,
 * or cycles of operation accumulated under the previous program must be applied in determining
 * inspection due times under the new program" (14 CFR 91.409(h)).
 */
@ApplicationScoped
public class CarryOvers {
  @Inject Programmes programmes;
  @Inject DueItems dueItems;
  @Inject Compliances compliances;

  /**
   * A requirement of the new programme that nothing was stated for yet.
   *
   * @param candidates what was done of the old programme to the same subject
   * @param likely of the same name, or null
   */
  public record Open(DueItem item, List<DueItem> candidates, DueItem likely) {

    /** What tells it from the others of one aircraft. */
    public String key() {
      return item.requirementId() + "." + item.subject().id();
    }
  }

  /** What is still to be carried over, in the order of the due list; none without an older one. */
  @Reading
  public List<Open> open(Viewer viewer, UUID aircraftId, LocalDate today) {
    Programmes.Following following = programmes.following(viewer, aircraftId, View.asAt(today));
    if (following.all().size() < 2) {
      return List.of();
    }
    List<DueItem> before = items(viewer, aircraftId, following.now().on().minusDays(1));
    return items(viewer, aircraftId, today).stream()
        .filter(item -> item.lastDone() == null)
        .filter(item -> before.stream().noneMatch(old -> isSame(old, item)))
        .map(item -> open(item, before))
        .toList();
  }

  /**
   * Files from where each of them counts: the doing of the old programme that was chosen.
   *
   * @param chosen by {@link Open#key}: the old requirement
   * @return how many were filed; one that has been stated meanwhile is left alone
   */
  @Filing
  public int carry(
      Viewer viewer, UUID aircraftId, Map<String, UUID> chosen, String why, LocalDate today) {
    String old = programmes.following(viewer, aircraftId, View.asAt(today)).all().get(1).words();
    int filed = 0;
    for (Open open : open(viewer, aircraftId, today)) {
      UUID from = chosen.get(open.key());
      if (from != null) {
        compliances.file(viewer, baseline(open, candidate(open, from), old, why));
        filed++;
      }
    }
    return filed;
  }

  private List<DueItem> items(Viewer viewer, UUID aircraftId, LocalDate day) {
    return dueItems
        .dueItems(viewer, List.of(aircraftId), View.asAt(day))
        .getOrDefault(aircraftId, List.of());
  }

  private static Open open(DueItem item, List<DueItem> before) {
    List<DueItem> candidates =
        before.stream()
            .filter(old -> old.subject().id().equals(item.subject().id()))
            .filter(old -> old.lastDone() != null)
            .toList();
    DueItem likely =
        candidates.stream()
            .filter(old -> old.title().equalsIgnoreCase(item.title()))
            .findFirst()
            .orElse(null);
    return new Open(item, candidates, likely);
  }

  private static boolean isSame(DueItem one, DueItem other) {
    return one.requirementId().equals(other.requirementId())
        && one.subject().id().equals(other.subject().id());
  }

  private static DueItem candidate(Open open, UUID from) {
    return open.candidates().stream()
        .filter(old -> old.requirementId().equals(from))
        .findFirst()
        .orElseThrow(
            () ->
                new Refusal(
                    "",
                    open.item().title() + ": what was chosen was not done to the same subject."));
  }

  private static NewCompliance baseline(Open open, DueItem old, String programme, String why) {
    LastDone done = old.lastDone();
    boolean ofAircraft = open.item().subject().isAircraft();
    return new NewCompliance(
        open.item().requirementId(),
        open.item().subject().aircraftId(),
        ofAircraft ? null : open.item().subject().id(),
        true,
        done.at(),
        done.reading().usage(),
        "",
        "",
        "",
        "“" + old.title() + "” of the programme " + programme,
        true,
        done.reading().on(),
        why,
        null);
  }
}
