package trestle.workshop;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.UUID;
import trestle.defects.DefectDraft;
import trestle.defects.Defects;
import trestle.defects.NoticedBy;
import trestle.defects.Phase;
import trestle.fleet.Revisions;
import trestle.ledger.Filed;
import trestle.ledger.Rows;
import trestle.people.Members.LicenceLine;
import trestle.people.Proof;
import trestle.programme.Compliances;
import trestle.programme.NewCompliance;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * Signing what was done, line by line or several at a press, and the second person's inspection. Of
 * two people who sign one line at once one succeeds and the other is told: the aircraft's lock
 * queues them, and the database takes one row only.
 */
@ApplicationScoped
public class LineWorks {
  @Inject WorkRepository repository;
  @Inject OrderBook book;
  @Inject Presses presses;
  @Inject Entitled entitled;
  @Inject Compliances compliances;
  @Inject Defects defects;
  @Inject Revisions revisions;
  @Inject Signatures signatures;
  @Inject Rows rows;
  @Inject InstantSource clock;

  /**
   * Signs what was done about lines of one order, all or none. The first signature starts the
   * order. A required inspection files its compliance with its own day and hours.
   *
   * @param licenceNumber of the signer's, good on the day of the work and rated for it
   * @return the ids of the records, in the order asked
   * @throws Stale when one of the lines was changed or signed meanwhile: nothing was filed
   * @throws Refusal naming the field that can't stand
   */
  @Filing
  public List<UUID> sign(
      Viewer viewer, Proof proof, String licenceNumber, List<NewWork> works, UUID formKey) {
    if (works.isEmpty()) {
      throw new Refusal("lines", "Choose the lines that you have read and sign for.");
    }
    WorkLine one = presses.line(works.get(0).lineRowId());
    UUID orderId = one.orderEntryId;
    revisions.bump(viewer, one.aircraftId);
    List<UUID> before = filedBefore(works, formKey);
    if (!before.isEmpty()) {
      return before;
    }
    WorkOrderSheet order = book.order(viewer, orderId);
    WorkOrders.notOver(order);
    List<OrderLine> lines = works.stream().map(work -> asRead(order, work)).toList();
    WorkOrders.mayStart(order);
    Presses.Press press = presses.of(viewer, order, licenceNumber, works, lines);
    UUID[] ids = new UUID[works.size()];
    for (int i : parentsLast(lines)) {
      UUID key = formKey == null ? null : keyOf(formKey, i);
      ids[i] = add(press, lines.get(i), works.get(i), key);
    }
    Instant first = works.stream().map(NewWork::at).min(Comparator.naturalOrder()).orElseThrow();
    press.also().addAll(WorkOrders.started(order, viewer, first));
    signatures.file(
        viewer,
        proof,
        Signer.engineer(licenceNumber),
        press.signings(),
        press.also().toArray(Filed[]::new));
    return List.of(ids);
  }

  /**
   * A second person inspects signed work.
   *
   * @throws Refusal to whoever did the work, and where no second person is asked for
   * @throws Stale when the work was inspected or changed meanwhile
   */
  @Filing
  public UUID inspect(
      Viewer viewer, Proof proof, UUID workId, String words, String licenceNumber, UUID formKey) {
    LineWork work = presses.work(workId);
    revisions.bump(viewer, work.aircraftId);
    LineInspection before = repository.ofForm(LineInspection.class, formKey).orElse(null);
    if (before != null) {
      return before.id();
    }
    WorkOrderSheet order = presses.standing(viewer, work);
    OrderLine line = order.line(work.lineEntryId).orElseThrow();
    if (line.look() != null) {
      throw new Stale(
          "It was inspected meanwhile, by " + line.look().inspectorName() + ". Nothing was filed.");
    }
    if (!line.awaitsInspection()) {
      throw new Refusal("", "No second person is asked to inspect this line.");
    }
    if (viewer.personId().equals(work.workedBy)
        || line.workedOnBy(viewer.personId())
        || Drafting.same(viewer.personName(), work.performedBy)) {
      throw new Refusal("", "You did this work: a second person inspects it.");
    }
    if (words == null || words.isBlank() || words.length() > 1_000) {
      throw new Refusal("words", "What was seen must be said, in at most 1,000 characters.");
    }
    Instant now = clock.instant();
    LicenceLine licence = entitled.licence(viewer, licenceNumber, now, line.line());
    LineInspection row = new LineInspection();
    row.afterVoided = rows.lastRevoking(LineInspection.class, "lineWorkId", work.id());
    row.aircraftId = work.aircraftId;
    row.lineWorkId = work.id();
    row.workedBy = work.workedBy;
    row.inspectedBy = viewer.personId();
    row.inspectorName = viewer.personName();
    row.words = words.strip();
    row.licenceNumber = licence.number();
    row.licenceKind = licence.kind();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(formKey);
    ObjectNode shown = Presses.about(order, line);
    shown.put("work", work.words);
    shown.put("work-by", work.workerName);
    shown.put("inspected", row.words);
    signatures.file(
        viewer,
        proof,
        Signer.engineer(licenceNumber),
        List.of(Signing.of(row, Statements.INSPECTED, shown)));
    return row.id();
  }

  /** What this very form has signed already: the same again, or it is stale. */
  private List<UUID> filedBefore(List<NewWork> works, UUID formKey) {
    List<UUID> ids = new ArrayList<>();
    for (int i = 0; formKey != null && i < works.size(); i++) {
      LineWork row = repository.ofForm(LineWork.class, keyOf(formKey, i)).orElse(null);
      if (row == null && ids.isEmpty()) {
        return List.of();
      }
      boolean same =
          row != null
              && row.words.equals(works.get(i).words())
              && row.lineEntryId.equals(presses.line(works.get(i).lineRowId()).entryId);
      if (!same) {
        throw new Stale("This form has signed something already, with other content.");
      }
      ids.add(row.id());
    }
    return ids;
  }

  private static UUID keyOf(UUID formKey, int index) {
    return index == 0
        ? formKey
        : UUID.nameUUIDFromBytes((formKey + " " + index).getBytes(StandardCharsets.UTF_8));
  }

  /** The line as its signer read it: neither changed nor signed since. */
  private OrderLine asRead(WorkOrderSheet order, NewWork work) {
    WorkLine read = presses.line(work.lineRowId());
    OrderLine line = order.line(read.entryId).orElse(null);
    if (line == null || !line.line().rowId().equals(read.id())) {
      throw new Stale(
          "Line " + read.ordinal + " was changed since you opened this page. Nothing was signed.");
    }
    if (line.isSigned()) {
      throw new Stale(
          "Line "
              + read.ordinal
              + " was signed meanwhile, by "
              + line.work().workerName()
              + ". Nothing was signed.");
    }
    return line;
  }

  /** The places of the lines in the press, those of inspections after their tasks. */
  private static List<Integer> parentsLast(List<OrderLine> lines) {
    List<Integer> order = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      order.add(i);
    }
    order.sort(Comparator.comparing(i -> lines.get(i).line().inspection()));
    return order;
  }

  private UUID add(Presses.Press press, OrderLine line, NewWork asked, UUID formKey) {
    LineWork row = Presses.row(press, line, asked);
    row.fromForm(formKey);
    row.afterVoided = afterVoided(line);
    if (asked.finding() != null) {
      follow(press, line, asked, row, formKey);
    }
    if (line.line().inspection() && asked.outcome() != Outcome.NOT_APPLICABLE) {
      row.complianceId = comply(press, line, asked);
    }
    ObjectNode shown = Presses.shown(press, line, row);
    if (asked.finding() != null) {
      shown.put("finding", asked.finding().words());
    }
    press.signings().add(Signing.of(row, Statements.WORKED, shown));
    return row.id();
  }

  private static UUID afterVoided(OrderLine line) {
    List<WorkSheet> earlier = line.earlier();
    return earlier.isEmpty() ? null : earlier.get(earlier.size() - 1).id();
  }

  /** A finding becomes a defect, or a line of this order. */
  private void follow(
      Presses.Press press, OrderLine line, NewWork asked, LineWork row, UUID formKey) {
    NewWork.Finding finding = asked.finding();
    Area area = finding.area() == null ? line.line().area() : finding.area();
    if (finding.isDefect()) {
      DefectDraft draft =
          new DefectDraft(
              finding.words(),
              null,
              area.label(),
              Phase.MAINTENANCE,
              null,
              finding.judgement(),
              NoticedBy.INSPECTION,
              false,
              "",
              asked.at());
      row.foundDefect =
          defects.report(press.viewer(), row.aircraftId, draft, List.of(), null, formKey).entryId();
      return;
    }
    WorkLine found =
        Drafting.blank(
            new Drafting.For(
                press.viewer(), row.aircraftId, press.order().order().id(), clock.instant()),
            WorkLine.FINDING);
    found.fromLine = line.line().id();
    found.title = Drafting.cut(finding.words(), 300);
    found.area = area.word();
    found.independent = line.line().independent() || area.alwaysInspected();
    long others = press.also().stream().filter(WorkLine.class::isInstance).count();
    found.ordinal = repository.lastOrdinal(press.order().order().id()) + 1 + (int) others;
    press.also().add(found);
  }

  private UUID comply(Presses.Press press, OrderLine line, NewWork asked) {
    LineSheet of = line.line();
    if (!press.running().knows(of.componentId())) {
      throw new Refusal("", "Line " + of.ordinal() + " is about a part that is not here.");
    }
    return compliances.file(
        press.viewer(),
        new NewCompliance(
            of.requirementId(),
            of.aircraftId(),
            of.componentId(),
            false,
            asked.at(),
            press.running().usage(of.componentId(), asked.at()),
            press.order().order().no() + ", line " + of.ordinal(),
            "",
            press.licence().number(),
            "",
            true,
            null,
            Drafting.cut(asked.words(), 500),
            null));
  }
}
