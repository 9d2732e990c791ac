package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** Reading defects, open ones and closed ones, with all that was filed of each. */
@ApplicationScoped
public class DefectBook {
  public static final int PAGE = 40;

  @Inject DefectRepository repository;
  @Inject OpenDefects open;

  /**
   * A defect with all its rows.
   *
   * @param rows as filed, the first report first; the last is what counts
   * @param done what was done about it, rows as filed; what was taken away again too
   * @param line how it stands while it is open, else null
   */
  public record Entry(List<DefectSheet> rows, List<RectificationSheet> done, DefectLine line) {
    public DefectSheet current() {
      return rows.get(rows.size() - 1);
    }

    public boolean isOpen() {
      return rectification() == null;
    }

    /** One row of what was done. */
    RectificationSheet done(UUID rowId) {
      return done.stream().filter(row -> row.id().equals(rowId)).findFirst().orElseThrow();
    }

    /** What was done, the latest row first. */
    public List<RectificationSheet> doneLatestFirst() {
      List<RectificationSheet> reversed = new ArrayList<>(done);
      Collections.reverse(reversed);
      return reversed;
    }

    /** What was done, as it now stands; null while it is open. */
    public RectificationSheet rectification() {
      return standing(done);
    }

    /** The row that counts: the last one, unless it takes away what was filed before. */
    private static RectificationSheet standing(List<RectificationSheet> done) {
      RectificationSheet last = done.isEmpty() ? null : done.get(done.size() - 1);
      return last == null || last.voided() ? null : last;
    }
  }

  /** One page of a list, the newest first; page numbers begin at one. */
  public record Page(List<Entry> entries, int number, long defects) {}

  /**
   * The defect of which a row is part, whether that row still counts or not.
   *
   * @throws NotHere when the operator has no such defect
   */
  @Reading
  public Entry entry(Viewer viewer, UUID rowId) {
    Defect row =
        repository
            .row(Defect.class, rowId)
            .orElseThrow(() -> new NotHere("There is no such defect here."));
    return entries(viewer, List.of(row.entryId)).get(row.entryId);
  }

  /** The same as it stood on a day; to which nothing may have been filed yet. */
  Entry entry(Viewer viewer, UUID rowId, View view) {
    UUID entryId = entry(viewer, rowId).current().entryId();
    Entry entry = entries(viewer, List.of(entryId), view).get(entryId);
    if (entry == null) {
      throw new NotHere("There was no such defect here that day.");
    }
    return entry;
  }

  /**
   * The defect that a rectification is of.
   *
   * @throws NotHere when the operator has no such rectification
   */
  @Reading
  public Entry rectified(Viewer viewer, UUID rectificationId) {
    Rectification row =
        repository
            .row(Rectification.class, rectificationId)
            .orElseThrow(() -> new NotHere("There is no such rectification here."));
    return entry(viewer, row.defectEntryId);
  }

  /** Defects by their entries, in the order asked for; what is not there is left out. */
  @Reading
  public Map<UUID, Entry> entries(Viewer viewer, Collection<UUID> entryIds) {
    return entries(viewer, entryIds, View.EVERYTHING);
  }

  private Map<UUID, Entry> entries(Viewer viewer, Collection<UUID> entryIds, View view) {
    Map<UUID, Entry> entries = new LinkedHashMap<>();
    if (entryIds.isEmpty()) {
      return entries;
    }
    Map<UUID, List<DefectSheet>> rows = new HashMap<>();
    for (Defect row : repository.entries(entryIds, view)) {
      rows.computeIfAbsent(row.entryId, id -> new ArrayList<>()).add(DefectSheet.of(row));
    }
    Map<UUID, List<RectificationSheet>> done = done(entryIds, view);
    Map<UUID, DefectLine> lines = lines(viewer, rows, done, view);
    for (UUID id : entryIds) {
      if (rows.containsKey(id)) {
        entries.put(id, new Entry(rows.get(id), done.getOrDefault(id, List.of()), lines.get(id)));
      }
    }
    return entries;
  }

  /**
   * Defects, open and closed.
   *
   * @param aircraftId of one aircraft, or null for all
   * @param rectified only those that were rectified
   */
  @Reading
  public Page page(Viewer viewer, UUID aircraftId, boolean rectified, int number) {
    return page(viewer, aircraftId, rectified, number, View.EVERYTHING);
  }

  /** The same in any view. */
  @Reading
  public Page page(Viewer viewer, UUID aircraftId, boolean rectified, int number, View view) {
    long count = repository.count(aircraftId, rectified, view);
    int pages = (int) Math.max(1, (count + PAGE - 1) / PAGE);
    int at = Math.min(Math.max(1, number), pages);
    List<UUID> ids =
        repository.all(aircraftId, rectified, view, (at - 1) * PAGE, PAGE).stream()
            .map(row -> row.entryId)
            .toList();
    return new Page(List.copyOf(entries(viewer, ids, view).values()), at, count);
  }

  /** The defects of an aircraft that were put right last, whenever they were found. */
  @Reading
  public List<Entry> lastRectified(Viewer viewer, UUID aircraftId, int count) {
    List<UUID> ids =
        repository.lastDone(aircraftId, View.EVERYTHING, count).stream()
            .map(row -> row.defectEntryId)
            .toList();
    return List.copyOf(entries(viewer, ids).values());
  }

  /** What one form has filed, if it has, as filed then. */
  @Reading
  public Optional<DefectSheet> ofForm(Viewer viewer, UUID formKey) {
    return repository.ofForm(Defect.class, formKey).map(DefectSheet::of);
  }

  /** The defects that came with journey log entries, by entry of the log. */
  @Reading
  public Map<UUID, List<DefectSheet>> ofFlights(Viewer viewer, Collection<UUID> flightEntryIds) {
    Map<UUID, List<DefectSheet>> defects = new HashMap<>();
    if (!flightEntryIds.isEmpty()) {
      for (Defect row : repository.ofFlights(flightEntryIds, View.EVERYTHING)) {
        defects
            .computeIfAbsent(row.flightEntryId, id -> new ArrayList<>())
            .add(DefectSheet.of(row));
      }
    }
    return defects;
  }

  private Map<UUID, List<RectificationSheet>> done(Collection<UUID> entryIds, View view) {
    Map<UUID, List<RectificationSheet>> done = new HashMap<>();
    for (Rectification row : repository.rectifications(entryIds, view)) {
      done.computeIfAbsent(row.defectEntryId, id -> new ArrayList<>())
          .add(RectificationSheet.of(row));
    }
    return done;
  }

  private Map<UUID, DefectLine> lines(
      Viewer viewer,
      Map<UUID, List<DefectSheet>> rows,
      Map<UUID, List<RectificationSheet>> done,
      View view) {
    List<UUID> aircraft =
        rows.values().stream()
            .filter(
                list -> Entry.standing(done.getOrDefault(list.get(0).entryId(), List.of())) == null)
            .map(list -> list.get(0).aircraftId())
            .distinct()
            .toList();
    Map<UUID, DefectLine> lines = new HashMap<>();
    open.of(viewer, aircraft, view)
        .values()
        .forEach(list -> list.forEach(line -> lines.put(line.entryId(), line)));
    return lines;
  }
}
