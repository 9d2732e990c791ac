package trestle.apron;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeSet;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** The lists to go by: after maintenance, and around the aircraft; each type may have its own. */
@ApplicationScoped
public class CheckLists {
  private static final int MOST_LINES = 100;
  private static final int LONGEST_LINE = 200;

  @Inject ApronRepository repository;
  @Inject Fleet fleet;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * A list as somebody wants it.
   *
   * @param revises the row on which it was based, null where it was the example's or another's
   */
  public record NewList(
      CheckListSheet.Kind kind,
      String typeName,
      List<String> lines,
      UUID revises,
      String reason,
      UUID formKey) {}

  /** The list that an aircraft of a type goes by: the type's own, that of all, or the example. */
  @Reading
  public CheckListSheet of(Viewer viewer, CheckListSheet.Kind kind, String typeName) {
    List<CheckListSheet> filed = filed(kind);
    return find(filed, typeName).or(() -> find(filed, "")).orElseGet(() -> ExampleLists.of(kind));
  }

  /** The list filed for exactly this type, if there is one. */
  @Reading
  public Optional<CheckListSheet> own(Viewer viewer, CheckListSheet.Kind kind, String typeName) {
    return find(filed(kind), typeName);
  }

  /** Every list that stands, the examples where an operator has none of its own. */
  @Reading
  public List<CheckListSheet> all(Viewer viewer) {
    List<CheckListSheet> all = new ArrayList<>();
    for (CheckListSheet.Kind kind : CheckListSheet.Kind.values()) {
      List<CheckListSheet> filed = filed(kind);
      if (find(filed, "").isEmpty()) {
        all.add(ExampleLists.of(kind));
      }
      all.addAll(filed);
    }
    return all;
  }

  /** The types of the fleet, for which lists may be written. */
  @Reading
  public List<String> types(Viewer viewer) {
    TreeSet<String> types = new TreeSet<>();
    for (AircraftSheet sheet : fleet.sheets(viewer, View.EVERYTHING)) {
      types.add(sheet.typeName());
    }
    return List.copyOf(types);
  }

  /**
   * Files a list, in place of the one it revises.
   *
   * @throws Refusal at {@code lines} or {@code reason}
   * @throws Stale when somebody else revised it meanwhile
   */
  @Filing
  public void revise(Viewer viewer, NewList wanted) {
    repository.lockCheckLists(viewer.operatorId());
    if (repository.ofForm(CheckList.class, wanted.formKey()).isPresent()) {
      return;
    }
    CheckListSheet standing = find(filed(wanted.kind()), wanted.typeName()).orElse(null);
    UUID stands = standing == null ? null : standing.rowId();
    if (!Objects.equals(stands, wanted.revises())) {
      throw new Stale("Someone revised this list since you opened this form.");
    }
    if (stands != null && (wanted.reason() == null || wanted.reason().isBlank())) {
      throw new Refusal("reason", "Reason is needed: say why it changes.");
    }
    CheckList row = new CheckList();
    row.kind = wanted.kind().word();
    row.typeName = wanted.typeName();
    row.lines = checked(wanted.lines()).toArray(String[]::new);
    Instant now = clock.instant();
    row.happened(now, viewer.dateOf(now));
    row.correct(stands, wanted.reason());
    row.fromForm(wanted.formKey());
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), row);
  }

  private static List<String> checked(List<String> lines) {
    List<String> kept = lines.stream().map(String::strip).filter(l -> !l.isEmpty()).toList();
    if (kept.isEmpty() || kept.size() > MOST_LINES) {
      throw new Refusal("lines", "Lines must be 1 to " + MOST_LINES + ", one thing a line.");
    }
    for (String line : kept) {
      if (line.length() > LONGEST_LINE) {
        throw new Refusal(
            "lines", "Each line must be at most " + LONGEST_LINE + " characters: " + line);
      }
    }
    return kept;
  }

  private List<CheckListSheet> filed(CheckListSheet.Kind kind) {
    return repository.checkLists().stream()
        .filter(row -> row.kind.equals(kind.word()))
        .map(
            row ->
                new CheckListSheet(
                    kind,
                    row.typeName,
                    List.of(row.lines),
                    row.id(),
                    row.happenedOn(),
                    row.reason()))
        .toList();
  }

  private static Optional<CheckListSheet> find(List<CheckListSheet> lists, String typeName) {
    return lists.stream().filter(list -> list.typeName().equals(typeName)).findFirst();
  }
}
