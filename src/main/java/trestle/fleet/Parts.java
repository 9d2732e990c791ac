package trestle.fleet;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What is stated of part numbers: what they are, and where they fit. */
@ApplicationScoped
public class Parts {
  @Inject ComponentRepository repository;
  @Inject AircraftRepository forms;
  @Inject Filings filings;

  /**
   * A part number's sheet, new or revised.
   *
   * @param sheet its {@code id} and {@code revisionId} are those that the person saw, null for a
   *     new one
   * @param reason why it is revised; not needed for a new one
   */
  public record Stating(PartSheet sheet, String reason, UUID formKey) {}

  /**
   * Files what is stated of a part number.
   *
   * @return the part's id
   * @throws Stale when someone revised it since the form was opened
   */
  @Filing
  public UUID state(Viewer viewer, Stating asked) {
    PartSheet sheet = asked.sheet();
    Filings.refuse(faults(sheet));
    Optional<PartRow> before = forms.ofForm(PartRow.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().partId;
    }
    forms.lockRegistration(
        viewer.operatorId(), "part " + sheet.partNumber().strip().toLowerCase(Locale.ROOT));
    PartRow row = row(sheet);
    if (sheet.id() == null) {
      refuseStated(viewer, sheet.partNumber());
      row.partId = UuidCreator.getTimeOrderedEpoch();
    } else {
      Filings.reasonNeeded(asked.reason());
      row.because(asked.reason());
      row.partId = sheet.id();
      row.revises = newest(sheet);
    }
    row.happened(filings.instant(), filings.today(viewer));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    return row.partId;
  }

  /** Every part number of which something is stated, by number. */
  @Reading
  public List<PartSheet> sheets(Viewer viewer, View view) {
    return repository.parts(view).stream()
        .map(PartRow::sheet)
        .sorted(Comparator.comparing(PartSheet::partNumber))
        .toList();
  }

  /** The sheets of some part numbers, by number in small letters. */
  @Reading
  public Map<String, PartSheet> of(Viewer viewer, Collection<String> partNumbers, View view) {
    Map<String, PartSheet> sheets = new HashMap<>();
    repository
        .parts(partNumbers, view)
        .forEach(row -> sheets.put(row.partNumber.toLowerCase(Locale.ROOT), row.sheet()));
    return sheets;
  }

  @Reading
  public Optional<PartSheet> of(Viewer viewer, String partNumber, View view) {
    return of(viewer, List.of(partNumber.strip()), view).values().stream().findFirst();
  }

  /** All that was stated of one part, the newest first. */
  @Reading
  public List<PartSheet> history(Viewer viewer, UUID partId) {
    List<PartSheet> all = new ArrayList<>();
    repository.partRows(partId).forEach(row -> all.add(0, row.sheet()));
    if (all.isEmpty()) {
      throw new NotHere("There is no such part here.");
    }
    return all;
  }

  private void refuseStated(Viewer viewer, String partNumber) {
    of(viewer, partNumber, View.EVERYTHING)
        .ifPresent(
            sheet -> {
              throw new Refusal(
                  "part-number", "Part " + sheet.partNumber() + " is here already: revise that.");
            });
  }

  private UUID newest(PartSheet sheet) {
    List<PartRow> rows = repository.partRows(sheet.id());
    if (rows.isEmpty()) {
      throw new NotHere("There is no such part here.");
    }
    PartRow newest = rows.get(rows.size() - 1);
    if (!newest.partNumber.equalsIgnoreCase(sheet.partNumber().strip())) {
      throw new Refusal("part-number", "Part number stays: it is what the sheet is about.");
    }
    if (!newest.id().equals(sheet.revisionId())) {
      throw new Stale("Someone revised part " + newest.partNumber + " since you opened this form.");
    }
    return newest.id();
  }

  private static List<Refusal.Reason> faults(PartSheet sheet) {
    List<Refusal.Reason> faults = new ArrayList<>();
    ComponentRows.length(faults, "part-number", "Part number", sheet.partNumber(), 60);
    ComponentRows.length(faults, "description", "Description", sheet.description(), 120);
    return faults;
  }

  private static PartRow row(PartSheet sheet) {
    PartRow row = new PartRow();
    row.partNumber = sheet.partNumber().strip();
    row.description = sheet.description().strip();
    row.kind = sheet.kind().word();
    row.partClass = sheet.partClass().word();
    row.fitsTypes = sheet.fitsTypes().toArray(String[]::new);
    row.fitsPositions = sheet.fitsPositions().toArray(String[]::new);
    row.fitsWhy = sheet.fitsWhy().strip();
    row.lifeLimited = sheet.lifeLimited();
    row.dataReference = sheet.dataReference().strip();
    return row;
  }
}
