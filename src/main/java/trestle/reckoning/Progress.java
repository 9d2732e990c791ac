package trestle.reckoning;

import java.util.List;

/**
 * How far one limit that counts from last done has come: its anchor, how many scheduled points were
 * used up from there, and whether the latest doing overran.
 */
final class Progress {

  private final Limit.Every limit;
  private long anchor = Scale.UNKNOWN;
  private long k;
  private boolean overrun;
  private Step.Why why = Step.Why.UNKNOWN;

  private Progress(Limit.Every limit) {
    this.limit = limit;
  }

  /** Walks the history, oldest first; lateness is judged limit by limit. */
  static Progress of(Limit.Every limit, History history, List<Extension> extensions) {
    Progress progress = new Progress(limit);
    List<Reading> doings = history.doings();
    int next = 0;
    if (doings.size() > 1 && limit.restartsAlways()) {
      // Each doing is the anchor of the next whatever went before, so that the last two tell all.
      next = doings.size() - 1;
      progress.anchor = limit.scale().pointOf(doings.get(next - 1));
    } else if (history.baseline() != null) {
      progress.anchor = limit.scale().pointOf(history.baseline());
      progress.why = Step.Why.BASELINE;
    } else if (!doings.isEmpty()) {
      progress.anchor = limit.scale().pointOf(doings.get(next++));
      progress.why = Step.Why.FIRST_DONE;
    }
    for (; next < doings.size(); next++) {
      boolean latest = next == doings.size() - 1;
      Extension granted = latest ? Reckoner.granted(extensions, next) : null;
      progress.record(limit.scale().pointOf(doings.get(next)), latest, granted);
    }
    return progress;
  }

  /** The next scheduled point, or {@link Scale#UNKNOWN}. */
  long due() {
    return anchor == Scale.UNKNOWN ? Scale.UNKNOWN : limit.scheduled(anchor, k + 1);
  }

  boolean overrun() {
    return overrun;
  }

  /** Where it stands, for a page that explains it. */
  Step step() {
    return new Step(why, anchor, k, due(), overrun);
  }

  /** An overrun is told of the latest doing alone. */
  private void record(long done, boolean latest, Extension granted) {
    long due = due();
    if (done == Scale.UNKNOWN || due == Scale.UNKNOWN) {
      recordUnknown(done);
      return;
    }
    overrun = latest && done > limit.lastGood(granted == null ? due : granted.due());
    if (inWindow(done, due)) {
      k++;
      why = Step.Why.WITHIN_WINDOW;
    } else if (done <= due || limit.late() == Limit.Late.RESTART) {
      restart(done);
      why = Step.Why.FROM_DONE;
    } else {
      k = limit.timesBetween(anchor, done);
      why = Step.Why.KEPT_SCHEDULE;
    }
  }

  /**
   * Where the schedule is lost, only a limit that restarts at every doing finds its way again; what
   * was due before, and so an overrun, stays unknown.
   */
  private void recordUnknown(long done) {
    overrun = false;
    why = Step.Why.UNKNOWN;
    restart(limit.late() == Limit.Late.RESTART && limit.window() == null ? done : Scale.UNKNOWN);
  }

  private boolean inWindow(long done, long due) {
    return limit.window() != null
        && limit.window().before(due) <= done
        && done <= limit.window().after(due);
  }

  private void restart(long done) {
    anchor = done;
    k = 0;
  }
}
