package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** Other ways of complying with a directive, each approved by whoever may (14 CFR 39.19). */
@ApplicationScoped
public class AlternativeMethods {
  @Inject DirectiveRepository repository;
  @Inject Directives directives;
  @Inject Fleet fleet;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * One method.
   *
   * @param aircraftId the one aircraft it was approved for, or null for all
   */
  public record Method(
      UUID directiveId,
      UUID aircraftId,
      String registration,
      String words,
      String approvedBy,
      String reference,
      LocalDate on) {}

  @Filing
  public void add(Viewer viewer, Method asked, Instant at, UUID formKey) {
    directives.one(viewer, asked.directiveId());
    if (asked.aircraftId() != null) {
      fleet.sheet(viewer, asked.aircraftId(), View.EVERYTHING);
    }
    if (repository.ofForm(AlternativeMethod.class, formKey).isPresent()) {
      return;
    }
    if (asked.words().isBlank() || asked.approvedBy().isBlank() || asked.reference().isBlank()) {
      throw new Refusal("words", "Method, who approved it and the approval are needed.");
    }
    AlternativeMethod row = new AlternativeMethod();
    row.directiveId = asked.directiveId();
    row.aircraftId = asked.aircraftId();
    row.words = asked.words().strip();
    row.approvedBy = asked.approvedBy().strip();
    row.reference = asked.reference().strip();
    row.happened(at, viewer.dateOf(at));
    row.fromForm(formKey);
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), row);
  }

  /** By directive, oldest first. */
  @Reading
  public Map<UUID, List<Method>> of(Viewer viewer, Collection<UUID> directiveIds, View view) {
    Map<UUID, List<Method>> methods = new HashMap<>();
    if (directiveIds.isEmpty()) {
      return methods;
    }
    List<AlternativeMethod> rows = repository.methods(directiveIds, view);
    var sheets =
        fleet.sheets(
            viewer,
            rows.stream().map(row -> row.aircraftId).filter(id -> id != null).toList(),
            View.EVERYTHING);
    for (AlternativeMethod row : rows) {
      methods
          .computeIfAbsent(row.directiveId, id -> new ArrayList<>())
          .add(
              new Method(
                  row.directiveId,
                  row.aircraftId,
                  row.aircraftId == null ? "" : sheets.get(row.aircraftId).registration(),
                  row.words,
                  row.approvedBy,
                  row.reference,
                  row.happenedOn()));
    }
    return methods;
  }
}
