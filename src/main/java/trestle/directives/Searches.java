package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * The search log: which source was looked through for new directives, through which day of
 * publication, by whom, and when next.
 */
@ApplicationScoped
public class Searches {
  private static final int MOST = 200;

  @Inject DirectiveRepository repository;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * One search.
   *
   * @param nextOn when that source is to be searched again, or null
   * @param overdue that day is over
   */
  public record Search(
      String source,
      LocalDate through,
      LocalDate nextOn,
      String remark,
      LocalDate on,
      UUID by,
      boolean overdue) {}

  @Filing
  public void file(
      Viewer viewer,
      String source,
      LocalDate through,
      LocalDate nextOn,
      String remark,
      UUID formKey) {
    if (repository.ofForm(DirectiveSearch.class, formKey).isPresent()) {
      return;
    }
    Instant now = clock.instant();
    LocalDate today = viewer.dateOf(now);
    if (through.isAfter(today)) {
      throw new Refusal("through", "Searched through must not be in the future.");
    }
    if (nextOn != null && nextOn.isBefore(today)) {
      throw new Refusal("next-on", "Next search must not be in the past.");
    }
    DirectiveSearch row = new DirectiveSearch();
    row.source = source.strip();
    row.searchedThrough = through;
    row.nextOn = nextOn;
    row.remark = remark == null ? "" : remark.strip();
    row.happened(now, today);
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
  }

  /** The last search of each source, by source. */
  @Reading
  public List<Search> newest(Viewer viewer) {
    LocalDate today = viewer.dateOf(clock.instant());
    return repository.newestSearches().stream().map(row -> search(row, today)).toList();
  }

  /** The newest first, at most two hundred. */
  @Reading
  public List<Search> log(Viewer viewer) {
    return repository.searches(MOST).stream().map(row -> search(row, null)).toList();
  }

  private static Search search(DirectiveSearch row, LocalDate today) {
    return new Search(
        row.source,
        row.searchedThrough,
        row.nextOn,
        row.remark,
        row.happenedOn(),
        row.recordedBy(),
        today != null && row.nextOn != null && row.nextOn.isBefore(today));
  }
}
