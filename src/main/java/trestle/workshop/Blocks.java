package trestle.workshop;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.defects.DefectLine;
import trestle.defects.OpenDefects;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What stands between an order and the release of its aircraft, each reason by name. */
@ApplicationScoped
public class Blocks {
  @Inject OpenDefects defects;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;

  /** The reasons, in the order of the lines; none: it may be released. */
  @Reading
  public List<Block> of(Viewer viewer, WorkOrderSheet order) {
    UUID aircraft = order.order().aircraftId();
    RuleProfile profile = profiles.of(viewer, aircraft, View.EVERYTHING);
    Map<UUID, DefectLine> open = new HashMap<>();
    defects
        .of(viewer, List.of(aircraft), View.EVERYTHING)
        .getOrDefault(aircraft, List.of())
        .forEach(line -> open.put(line.entryId(), line));
    List<Block> blocks = new ArrayList<>();
    if (order.awaitsApproval()) {
      add(blocks, Block.Why.NOT_APPROVED, "The owner has not approved it.", order.order().link());
    }
    if (order.signed() == 0) {
      add(blocks, Block.Why.NOTHING_SIGNED, "No line is signed.", order.order().link());
    }
    // What is put right on this order is closed by its release.
    order.lines().stream()
        .filter(line -> line.line().defectId() != null && line.isWorked())
        .forEach(line -> open.remove(line.line().defectId()));
    for (OrderLine line : order.lines()) {
      ofLine(blocks, line, profile, open);
    }
    fleet
        .emptyRequiredPositions(viewer, List.of(aircraft), View.EVERYTHING)
        .getOrDefault(aircraft, List.of())
        .forEach(
            position ->
                add(
                    blocks,
                    Block.Why.POSITION_EMPTY,
                    "Nothing is fitted as " + position.label() + ".",
                    "/aircraft/" + aircraft + "/positions"));
    return blocks;
  }

  private static void ofLine(
      List<Block> blocks, OrderLine line, RuleProfile profile, Map<UUID, DefectLine> open) {
    String link = line.line().link();
    String name = "Line " + line.line().ordinal();
    if (line.awaitsInspection()) {
      add(
          blocks,
          Block.Why.INSPECTION_MISSING,
          name + " waits for a second person’s inspection.",
          link);
    } else if (!line.isClosed()) {
      add(blocks, Block.Why.LINE_OPEN, name + " is open: " + line.line().title() + ".", link);
    }
    for (UsedPart part : line.parts()) {
      if (!part.isOff() && part.evidence().isEmpty()) {
        part.kept()
            .evidence(profile)
            .ifPresent(
                asked ->
                    add(
                        blocks,
                        Block.Why.EVIDENCE_MISSING,
                        name + ": " + part.words() + " has no " + asked + ".",
                        link));
      }
    }
    UUID found = line.work() == null ? null : line.work().foundDefect();
    DefectLine defect = found == null ? null : open.get(found);
    if (defect != null && (defect.state().equals("reported") || defect.holds())) {
      add(
          blocks,
          Block.Why.FINDING_OPEN,
          "Defect "
              + defect.no()
              + ", found on line "
              + line.line().ordinal()
              + ", is neither put right nor deferred.",
          defect.link());
    }
  }

  private static void add(List<Block> blocks, Block.Why why, String sentence, String link) {
    blocks.add(new Block(why, sentence, link));
  }
}
