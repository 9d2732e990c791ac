package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;

/**
 * The one place through which anything is filed. Each row gets the next sequence of its operator's
 * ledger, a line with its canonical JSON, and a leaf of the tree, all in the caller's transaction.
 *
 * <p>Call it last: it locks the operator's head row until the commit, so that sequences have no
 * gaps and other filings wait as briefly as can be.
 */
@ApplicationScoped
public class Ledger {
  @Inject LedgerRepository repository;
  @Inject KeyRing keys;

  /** The size and root of an operator's ledger. */
  public record Head(long size, byte[] root) {}

  /** Opens the ledger of a new operator: its first line is the key that its heads are signed by. */
  public void open(Act act) {
    LedgerHead head = new LedgerHead();
    head.operatorId = act.operatorId();
    head.set(MerkleFrontier.EMPTY);
    repository.persist(head);
    keys.file(act);
  }

  /** Rows filed by one act. */
  public record Filing(Act act, List<? extends Filed> rows) {}

  public void file(Act act, Filed... rows) {
    file(act, List.of(rows));
  }

  public void file(Act act, List<? extends Filed> rows) {
    file(act.operatorId(), List.of(new Filing(act, rows)));
  }

  /** Files what several acts of one operator's people filed, in the order given. */
  public void file(UUID operatorId, List<Filing> filings) {
    LedgerHead head = repository.lockHead(operatorId);
    MerkleFrontier edge = MerkleFrontier.of(head.size, head.frontier);
    List<LedgerEntry> lines = new ArrayList<>();
    List<LedgerSubtree> subtrees = new ArrayList<>();
    for (Filing filing : filings) {
      for (Filed row : filing.rows()) {
        LedgerEntry line = line(filing.act(), row, edge.size() + 1);
        edge = edge.append(line.leaf, kept(operatorId, subtrees));
        repository.persist(row);
        lines.add(line);
      }
    }
    // Rows of a table one after another: so they go to the database in batches.
    lines.forEach(repository::persist);
    subtrees.forEach(repository::persist);
    head.set(edge);
  }

  private static MerkleFrontier.Completed kept(UUID operatorId, List<LedgerSubtree> subtrees) {
    return (level, place, root) -> {
      if (level >= LedgerSubtree.LEAST_LEVEL) {
        subtrees.add(LedgerSubtree.of(operatorId, level, place, root));
      }
    };
  }

  public Head head(UUID operatorId) {
    LedgerHead head = repository.head(operatorId);
    return new Head(head.size, head.root);
  }

  private static LedgerEntry line(Act act, Filed row, long seq) {
    row.operatorId = act.operatorId();
    row.ledgerSeq = seq;
    row.recordedAt = act.recordedAt().truncatedTo(ChronoUnit.MICROS);
    row.recordedBy = act.personId();
    if (row.happenedAt == null) {
      throw new IllegalStateException("A filed row says when it happened: " + row.getClass());
    }
    FiledJson.settle(row);
    Kind kind = row.getClass().getAnnotation(Kind.class);
    LedgerEntry line = new LedgerEntry();
    line.operatorId = act.operatorId();
    line.seq = seq;
    line.recordedAt = row.recordedAt;
    line.recordedBy = row.recordedBy;
    line.aircraftId = row.ledgerAircraft();
    line.kind = kind.value();
    line.kindVersion = kind.version();
    line.recordId = row.id;
    line.json = FiledJson.canonical(row);
    line.leaf = MerkleFrontier.leaf(line.json.getBytes(StandardCharsets.UTF_8));
    return line;
  }
}
