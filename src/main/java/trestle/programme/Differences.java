package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.ledger.View;
import trestle.reckoning.Limit;
import trestle.standing.DueItem;
import trestle.standing.Granted;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * What tells an aircraft from its programme: what it is spared, what it has of its own, what was
 * extended for it, and what a revision says that it has not taken up.
 */
@ApplicationScoped
public class Differences {
  @Inject ProgrammeRevisions revisions;
  @Inject DueItems dueItems;

  /**
   * What a later revision makes of one requirement.
   *
   * @param before its rule as it is carried, or ""
   * @param after its rule then, or "" where it ends
   */
  public record Change(UUID requirementId, String title, String before, String after) {

    public String what() {
      if (before.isEmpty()) {
        return "new";
      }
      if (after.isEmpty()) {
        return "no longer asked for";
      }
      return after.equals(before) ? "another wording" : "changed";
    }
  }

  /** An extension that stands for an item. */
  public record Extended(DueItem item, String due, String approvedBy, String reference) {}

  /**
   * @param newest the revision issued last, where the aircraft has not taken that up; or null
   * @param changes what that would change
   */
  public record Found(Issued newest, List<Change> changes, List<Extended> extended) {}

  /** Of an aircraft that follows a programme. */
  @Reading
  public Found of(
      Viewer viewer,
      AircraftSheet aircraft,
      Programmes.Adopted followed,
      List<RequirementRecords.History> programme,
      View view) {
    List<Issued> issued = revisions.of(viewer, followed.programmeId(), view);
    Issued newest = issued.isEmpty() ? null : issued.get(issued.size() - 1);
    boolean behind = newest != null && !newest.equals(followed.revision());
    List<Change> changes = new ArrayList<>();
    if (behind) {
      for (RequirementRecords.History one : programme) {
        Change change = change(one, one.under(followed.revision()), one.under(newest));
        if (change != null) {
          changes.add(change);
        }
      }
    }
    return new Found(behind ? newest : null, changes, extended(viewer, aircraft, view));
  }

  /** Null where nothing changes. */
  private static Change change(RequirementRecords.History of, Revision before, Revision after) {
    boolean carried = before != null && !before.withdrawn();
    boolean asked = after != null && !after.withdrawn();
    if (carried == asked && (!carried || before.terms().equals(after.terms()))) {
      return null;
    }
    return new Change(
        of.requirement().id(),
        asked ? after.terms().title() : before.terms().title(),
        carried ? words(before) : "",
        asked ? words(after) : "");
  }

  private static String words(Revision revision) {
    Terms terms = revision.terms();
    String where = terms.where().isAnywhere() ? "" : ", " + terms.where().words();
    return revision.ruleWords() + ", " + terms.force().word() + where;
  }

  private List<Extended> extended(Viewer viewer, AircraftSheet aircraft, View view) {
    List<Extended> extended = new ArrayList<>();
    dueItems
        .dueItems(viewer, List.of(aircraft.id()), view)
        .getOrDefault(aircraft.id(), List.of())
        .forEach(
            item ->
                item.extensions()
                    .forEach(granted -> extended.add(extended(item, granted, aircraft))));
    return extended;
  }

  private static Extended extended(DueItem item, Granted granted, AircraftSheet aircraft) {
    String due =
        Reckoned.at(item.rule().group(), granted.limit()) instanceof Limit.Measured measured
            ? Explained.point(measured.scale(), granted.due(), aircraft.shownAs())
            : "a later point";
    return new Extended(item, due, granted.approvedBy(), granted.reference());
  }
}
