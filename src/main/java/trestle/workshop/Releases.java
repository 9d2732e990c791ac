package trestle.workshop;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.fleet.Revisions;
import trestle.ledger.View;
import trestle.people.Members.LicenceLine;
import trestle.people.Proof;
import trestle.profiles.RuleProfile;
import trestle.profiles.RuleProfiles;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * The end of an order: the aircraft is released, or an inspection finds it not airworthy and a
 * signed and dated list says why (14 CFR 43.11). What was done is complied with and closed in the
 * same transaction, so that the standing follows at once.
 */
@ApplicationScoped
public class Releases {
  @Inject WorkRepository repository;
  @Inject ReleaseRepository closed;
  @Inject OrderBook book;
  @Inject Blocks blocks;
  @Inject Closing closing;
  @Inject Entitled entitled;
  @Inject Totals totals;
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject InstantSource clock;

  /**
   * What a progressive inspection looked at (14 CFR 43.11(a)(6)).
   *
   * @param routine the aircraft or components of which a routine inspection was made, or ""
   * @param detailed the components of which a detailed one was made, or ""
   */
  public record Progressive(String routine, String detailed) {
    public static final Progressive NONE = new Progressive("", "");

    public Progressive {
      routine = routine == null ? "" : routine.strip();
      detailed = detailed == null ? "" : detailed.strip();
    }

    boolean isSaid() {
      return !routine.isEmpty() || !detailed.isEmpty();
    }
  }

  /**
   * A release to file.
   *
   * @param discrepancies what was found besides what is open by the records; only where it is not
   *     airworthy
   * @param checkFlight why a check flight is asked for, or ""
   * @param progressive what a progressive inspection looked at, where it was one
   * @param seen {@link #seen} of the order as its releaser read it
   * @param told {@link #told} to its releaser, or null where no page told it
   */
  public record NewRelease(
      UUID orderId,
      boolean airworthy,
      List<String> discrepancies,
      String checkFlight,
      String remarks,
      String licenceNumber,
      Progressive progressive,
      String seen,
      String told) {

    public NewRelease(
        UUID orderId,
        boolean airworthy,
        List<String> discrepancies,
        String checkFlight,
        String remarks,
        String licenceNumber,
        String seen) {
      this(
          orderId,
          airworthy,
          discrepancies,
          checkFlight,
          remarks,
          licenceNumber,
          Progressive.NONE,
          seen,
          null);
    }

    public NewRelease {
      discrepancies = discrepancies.stream().map(String::strip).filter(s -> !s.isEmpty()).toList();
      checkFlight = checkFlight == null ? "" : checkFlight.strip();
      remarks = remarks == null ? "" : remarks.strip();
    }
  }

  /**
   * Closes an order.
   *
   * @return the release's id
   * @throws Refusal with every reason that blocks it
   * @throws Stale when something of the order changed since it was read, or it was closed
   */
  @Filing
  public UUID release(Viewer viewer, Proof proof, NewRelease asked, UUID formKey) {
    revisions.bump(viewer, book.order(viewer, asked.orderId()).order().aircraftId());
    WorkRelease before = repository.ofForm(WorkRelease.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    WorkOrderSheet order = book.order(viewer, asked.orderId());
    WorkOrders.notOver(order);
    if (!seen(order).equals(asked.seen())) {
      throw new Stale("Something of this order changed since you read it. Nothing was signed.");
    }
    if (asked.told() != null && !asked.told().equals(told(viewer, order))) {
      throw new Stale(
          "The statement, or what the aircraft has flown, changed since you read it. Nothing was"
              + " signed.");
    }
    List<Block> standing = blocks.of(viewer, order);
    check(order, asked, standing);
    Instant now = clock.instant();
    LicenceLine licence = licence(viewer, asked.licenceNumber(), now, order);
    AircraftSheet aircraft = fleet.sheet(viewer, order.order().aircraftId(), View.EVERYTHING);
    RuleProfile profile = profiles.of(viewer, aircraft.id(), View.asAt(viewer.dateOf(now)));
    check(order, asked.progressive(), profile);
    closing.close(
        new Closing.Of(
            viewer, proof, licence, order, profile, viewer.dateOf(now), asked.airworthy()));
    WorkRelease row = row(viewer, order, asked, profile, licence, now);
    row.discrepancies =
        asked.airworthy() ? new String[0] : discrepancies(asked, standing).toArray(String[]::new);
    row.fromForm(formKey);
    signatures.file(
        viewer,
        proof,
        Signer.engineer(licence.number()),
        List.of(Signing.of(row, row.statement, shown(aircraft, order, row))));
    return row.id();
  }

  /** Whoever certifies an inspection is rated for it; other work was signed by who is. */
  private LicenceLine licence(Viewer viewer, String number, Instant now, WorkOrderSheet order) {
    LicenceLine licence = entitled.licence(viewer, number, now);
    order.lines().stream()
        .filter(Statements::isInspection)
        .forEach(line -> entitled.licence(viewer, number, now, line.line()));
    return licence;
  }

  private static void check(WorkOrderSheet order, NewRelease asked, List<Block> standing) {
    if (asked.checkFlight().length() > 300 || asked.remarks().length() > 1_000) {
      throw new Refusal("remarks", "Remarks have at most 1,000 characters, a check flight 300.");
    }
    if (asked.airworthy()) {
      if (!standing.isEmpty()) {
        throw new Refusal(
            standing.stream()
                .map(block -> new Refusal.Reason(field(standing, block), block.sentence()))
                .toList());
      }
      return;
    }
    if (order.lines().stream().noneMatch(Statements::isInspection)) {
      throw new Refusal(
          "airworthy",
          "Only an inspection finds an aircraft not airworthy: none is signed on this order.");
    }
    if (discrepancies(asked, standing).isEmpty()) {
      throw new Refusal(
          "discrepancies", "Discrepancies are needed: list what makes it not airworthy.");
    }
    if (discrepancies(asked, standing).stream().anyMatch(each -> each.length() > 500)) {
      throw new Refusal("discrepancies", "A discrepancy has at most 500 characters.");
    }
  }

  private static void check(WorkOrderSheet order, Progressive said, RuleProfile profile) {
    if (!said.isSaid()) {
      return;
    }
    if (profile.statements().progressive().isEmpty()) {
      throw new Refusal(
          "routine", "The rule profile has no statement of a progressive inspection.");
    }
    if (order.lines().stream().noneMatch(Statements::isInspection)) {
      throw new Refusal("routine", "No inspection is signed on this order.");
    }
    if (said.routine().isEmpty() || said.detailed().isEmpty()) {
      throw new Refusal(
          said.routine().isEmpty() ? "routine" : "detailed",
          "A progressive inspection names both what it looked at in routine and in detail.");
    }
    if (said.routine().length() > 300 || said.detailed().length() > 300) {
      throw new Refusal("routine", "What was looked at has at most 300 characters each.");
    }
  }

  /** The form keeps one sentence a field: each block has a field of its own. */
  private static String field(List<Block> standing, Block block) {
    int place = standing.indexOf(block);
    return place == 0 ? "" : "block-" + place;
  }

  /** What is open by the records, and what the inspector adds. */
  private static Set<String> discrepancies(NewRelease asked, List<Block> standing) {
    Set<String> all = new LinkedHashSet<>();
    standing.forEach(block -> all.add(Drafting.cut(block.sentence(), 500)));
    all.addAll(asked.discrepancies());
    return all;
  }

  private WorkRelease row(
      Viewer viewer,
      WorkOrderSheet order,
      NewRelease asked,
      RuleProfile profile,
      LicenceLine licence,
      Instant now) {
    WorkRelease row = new WorkRelease();
    row.aircraftId = order.order().aircraftId();
    row.orderEntryId = order.order().id();
    row.airworthy = asked.airworthy();
    row.statement =
        Statements.release(
            profile, order, asked.airworthy(), asked.progressive(), viewer.dateOf(now));
    row.completedOn = order.completedOn();
    row.checkFlight = asked.airworthy() ? asked.checkFlight() : "";
    row.times = totals.of(viewer, row.aircraftId).json(now);
    row.remarks = asked.remarks();
    row.releaserName = viewer.personName();
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    row.profileName = profile.name();
    row.happened(now, viewer.dateOf(now));
    return row;
  }

  private static ObjectNode shown(AircraftSheet aircraft, WorkOrderSheet order, WorkRelease row) {
    ObjectNode shown = JsonNodeFactory.instance.objectNode();
    shown.put("aircraft", aircraft.registration());
    shown.put("type", aircraft.typeName());
    shown.put("serial", aircraft.particulars().serial());
    shown.put("work-order", order.order().no());
    shown.put("airworthy", row.airworthy);
    shown.put("completed-on", row.completedOn.toString());
    shown.put("released-on", row.happenedOn().toString());
    shown.put("times", row.times);
    shown.put("check-flight", row.checkFlight);
    shown.put("remarks", row.remarks);
    ArrayNode discrepancies = shown.putArray("discrepancies");
    List.of(row.discrepancies).forEach(discrepancies::add);
    ArrayNode lines = shown.putArray("lines");
    for (OrderLine line : order.lines()) {
      ObjectNode one = lines.addObject();
      one.put("line", line.line().ordinal());
      one.put("asked", line.line().title());
      one.put("state", line.stateWords());
      if (line.isSigned()) {
        one.put("words", line.work().words());
        one.put("data", line.work().data());
        one.put("by", line.work().by());
        one.put("record", line.work().id().toString());
      }
      if (line.look() != null) {
        one.put("inspected-by", line.look().by());
      }
    }
    return shown;
  }

  /** A mark of all that an order says: who releases it names the one that they read. */
  public static String seen(WorkOrderSheet order) {
    StringBuilder ids = new StringBuilder(order.order().rowId().toString());
    order.steps().forEach(step -> ids.append(step.step()));
    for (OrderLine line : order.lines()) {
      ids.append(line.line().rowId());
      if (line.isSigned()) {
        ids.append(line.work().id());
      }
      if (line.look() != null) {
        ids.append(line.look().id());
      }
      if (line.leftOpen() != null) {
        ids.append(line.leftOpen().id());
      }
      ids.append(line.defectDeferred());
      line.parts().forEach(part -> ids.append(part.id()));
      line.readings().forEach(reading -> ids.append(reading.id()));
      line.photos().forEach(photo -> ids.append(photo.id()));
    }
    return Signing.sha256(ids.toString());
  }

  /** A mark of what the release says besides: its statements as of today, and the totals. */
  @Reading
  public String told(Viewer viewer, WorkOrderSheet order) {
    UUID aircraft = order.order().aircraftId();
    Instant now = clock.instant();
    LocalDate today = viewer.dateOf(now);
    RuleProfile profile = profiles.of(viewer, aircraft, View.asAt(today));
    return Signing.sha256(
        Statements.release(profile, order, true, Progressive.NONE, today)
            + Statements.release(profile, order, false, Progressive.NONE, today)
            + profile.statements().progressive()
            + totals.of(viewer, aircraft).json(now));
  }

  /**
   * By which day the release must be entered, counted from the end of the work; null where the
   * profile sets none, or nothing is signed.
   */
  public static LocalDate enterBy(RuleProfile profile, WorkOrderSheet order) {
    LocalDate completed = order.completedOn();
    return profile.lateEntryDays() == null || completed == null
        ? null
        : completed.plusDays(profile.lateEntryDays());
  }

  /** A release, with its order. */
  @Reading
  public ReleaseSheet one(Viewer viewer, UUID releaseId) {
    return repository
        .row(WorkRelease.class, releaseId)
        .map(ReleaseSheet::of)
        .orElseThrow(() -> new NotHere("There is no such release here."));
  }

  /** The last word of a workshop on an aircraft, with the order that it ended. */
  public record Last(ReleaseSheet release, OrderSheet order) {}

  /** In the view, if any. */
  @Reading
  public Optional<Last> last(Viewer viewer, UUID aircraftId, View view) {
    return closed
        .lastRelease(aircraftId, view)
        .map(
            row ->
                new Last(
                    ReleaseSheet.of(row),
                    OrderSheet.of(repository.orders(List.of(row.orderEntryId), view).get(0))));
  }
}
