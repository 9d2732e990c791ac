package trestle.ledger.verify;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.NoSuchElementException;
import java.util.Optional;
import java.util.UUID;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import trestle.ledger.MerkleFrontier;
import trestle.ledger.verify.VerifyRepository.Head;
import trestle.ledger.verify.VerifyRepository.Reader;
import trestle.ledger.verify.VerifyRepository.Rows;
import trestle.ledger.verify.VerifyRepository.Span;

/**
 * Recomputes everything that an operator ever filed, from the rows up to the ledger's head, and
 * compares. Two stretches at a time, in memory that does not grow with the ledger.
 */
@ApplicationScoped
public class Verifier {
  /** Every stretch asks every table once: neither so short that asking is most of it, … */
  private static final int LEAST_LEVEL = 12;

  /** … nor so long that at the end one is left to one worker alone. */
  private static final int MOST_LEVEL = 16;

  private static final int PARTS = 3;
  private static final int AT_ONCE = 2;
  private static final int WAITING = 2;

  @Inject VerifyRepository repository;
  @Inject KindsRepository kinds;

  /**
   * Verifies an operator's ledger as it is now; not within a transaction.
   *
   * @param textOnly to hash the stored text alone, many times faster: changed rows and files stay
   *     unseen
   * @throws NoSuchElementException when there is no such operator
   */
  public Verdict verify(UUID operatorId, boolean textOnly) {
    ExecutorService workers = Executors.newFixedThreadPool(AT_ONCE);
    try {
      return verify(operatorId, textOnly, workers);
    } finally {
      workers.shutdownNow();
    }
  }

  private Verdict verify(UUID operatorId, boolean textOnly, ExecutorService workers) {
    try (Reader reader = repository.open(operatorId, null)) {
      Head head = reader.head();
      if (head == null) {
        throw new NoSuchElementException("No operator " + operatorId);
      }
      List<FiledTable> tables = textOnly ? List.of() : kinds.tables();
      Map<FiledTable, Span> spans = new LinkedHashMap<>();
      tables.forEach(table -> spans.put(table, reader.span(table)));
      Work work = new Work(operatorId, head.size(), level(head.size()), reader.moment(), spans);
      Found lines = stretches(work, reader.subtrees(work.level() + 1, 0, head.size()), workers);
      Trouble trouble = lines.trouble();
      if (trouble == null) {
        trouble = ends(reader, head);
      }
      if (trouble == null) {
        trouble = strays(reader, tables, head.size());
      }
      if (trouble == null) {
        trouble = headOf(head, lines.edge());
      }
      if (trouble == null && !textOnly) {
        trouble = Repeated.trouble(reader, kinds.repeated());
      }
      if (trouble == null && !textOnly) {
        trouble = KeptFiles.trouble(reader, kinds.namings());
      }
      return new Verdict(
          operatorId, head.size(), head.root(), textOnly, Optional.ofNullable(trouble));
    }
  }

  /** Of a full subtree: so that stretches are put together by their roots. */
  private static int level(long size) {
    int whole = Long.SIZE - 1 - Long.numberOfLeadingZeros(Math.max(1, size));
    return Math.max(LEAST_LEVEL, Math.min(MOST_LEVEL, whole - PARTS));
  }

  /**
   * @param spans where each table's rows lie; empty when only the text is asked for
   */
  private record Work(
      UUID operatorId, long size, int level, String moment, Map<FiledTable, Span> spans) {

    long stretch() {
      return 1L << level;
    }
  }

  private record Found(MerkleFrontier edge, Trouble trouble) {}

  /**
   * @param kept the roots of subtrees larger than a stretch
   */
  private Found stretches(Work work, Map<String, byte[]> kept, ExecutorService workers) {
    Deque<Future<Stretch.Found>> running = new ArrayDeque<>();
    MerkleFrontier full = MerkleFrontier.EMPTY;
    MerkleFrontier last = MerkleFrontier.EMPTY;
    List<Trouble> troubles = new ArrayList<>();
    long next = 0;
    while (next < work.size() || !running.isEmpty()) {
      while (next < work.size() && running.size() < AT_ONCE + WAITING) {
        long after = next;
        long upTo = Math.min(after + work.stretch(), work.size());
        running.add(workers.submit(() -> stretch(work, after, upTo)));
        next = upTo;
      }
      Stretch.Found found = result(running.remove());
      if (found.trouble() != null) {
        return new Found(null, found.trouble());
      }
      if (found.edge().size() == work.stretch()) {
        full = full.append(found.edge().root(), compare(kept, work.level(), troubles));
      } else {
        last = found.edge();
      }
    }
    return new Found(joined(full, last, work.size()), troubles.isEmpty() ? null : troubles.get(0));
  }

  private static MerkleFrontier.Completed compare(
      Map<String, byte[]> kept, int ofStretch, List<Trouble> troubles) {
    return (level, place, root) -> {
      int whole = level + ofStretch;
      byte[] before = kept.get(whole + " " + place);
      if (before != null && !Arrays.equals(before, root)) {
        long from = (place << whole) + 1;
        troubles.add(new Trouble(from, Words.subtree(from, place + 1 << whole)));
      }
    };
  }

  /** The stretches' subtrees, then those of the last, shorter one: the frontier of the whole. */
  private static MerkleFrontier joined(MerkleFrontier full, MerkleFrontier last, long size) {
    List<byte[]> subtrees = new ArrayList<>(full.subtrees());
    subtrees.addAll(last.subtrees());
    return new MerkleFrontier(size, subtrees);
  }

  private Stretch.Found stretch(Work work, long after, long upTo) {
    try (Reader reader = repository.open(work.operatorId(), work.moment())) {
      return work.spans().isEmpty()
          ? Stretch.texts(reader, after, upTo)
          : Stretch.rows(reader, work.spans(), after, upTo);
    }
  }

  private static Stretch.Found result(Future<Stretch.Found> running) {
    try {
      return running.get();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    } catch (ExecutionException e) {
      throw new IllegalStateException(e.getCause());
    }
  }

  private static Trouble ends(Reader reader, Head head) {
    try (Rows row = reader.ends()) {
      row.next();
      return row.number(2) > head.size()
          ? new Trouble(head.size() + 1, Words.linesPast(head.size(), row.number(1)))
          : null;
    }
  }

  private static Trouble strays(Reader reader, List<FiledTable> tables, long size) {
    for (FiledTable table : tables) {
      try (Rows rows = reader.strays(table, size)) {
        if (rows.next()) {
          long seq = rows.number(1);
          return new Trouble(seq, Words.rowWithoutLine(table.name(), rows.text(0), seq));
        }
      }
    }
    return null;
  }

  private static Trouble headOf(Head head, MerkleFrontier edge) {
    if (!Arrays.equals(edge.root(), head.root())) {
      return new Trouble(0, Words.root());
    }
    return Arrays.equals(edge.bytes(), head.frontier()) ? null : new Trouble(0, Words.frontier());
  }
}
