package trestle.records;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import trestle.ledger.Act;
import trestle.ledger.Heads;
import trestle.ledger.Outside;
import trestle.ledger.SignedHead;
import trestle.ledger.verify.Verdict;
import trestle.overview.Alarms;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Role;
import trestle.web.Viewer;

/** Verifying an operator's ledger, and what came of it each time. */
@ApplicationScoped
public class Verifications implements Alarms {
  private static final int SHOWN = 10;

  @Inject VerificationRepository repository;
  @Inject Outside outside;
  @Inject Heads heads;
  @Inject InstantSource clock;

  /** Where the last verification found something, every member sees it on the fleet page. */
  @Override
  @Reading
  public List<Alarm> alarms(Viewer viewer) {
    return repository.newest(viewer.operatorId(), 1).stream()
        .map(VerifiedLine::of)
        .filter(line -> !line.isSound())
        .map(line -> new Alarm(alarm(line), mayRead(viewer) ? "/verification" : null))
        .toList();
  }

  private static String alarm(VerifiedLine line) {
    return line.trouble() != null
        ? "The last verification found a record that is not as it was filed."
        : "The last verification found that a head or proof from outside does not agree.";
  }

  private static boolean mayRead(Viewer viewer) {
    return viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.AUDITOR);
  }

  /** The newest ten, the newest first. */
  @Reading
  public List<VerifiedLine> newest(Viewer viewer) {
    return repository.newest(viewer.operatorId(), SHOWN).stream().map(VerifiedLine::of).toList();
  }

  /** The ledger's head as it is now, to be kept by somebody else. */
  @Reading
  public SignedHead head(Viewer viewer) {
    return heads.signed(new Act(viewer.operatorId(), viewer.personId(), clock.instant()));
  }

  /**
   * How a head or proof that somebody kept disagrees with the ledger here.
   *
   * @return sentences; empty when it agrees
   */
  @Reading
  public List<String> troubles(Viewer viewer, OutsideText given) {
    return given.isProof()
        ? outside.troubles(viewer.operatorId(), given.proof())
        : outside.troubles(viewer.operatorId(), given.head());
  }

  /** Keeps what a verification found. */
  @Filing
  public VerifiedLine keep(
      Viewer viewer, Verdict verdict, List<String> outsideTroubles, Instant began) {
    Verification row = new Verification();
    row.operatorId = viewer.operatorId();
    row.beganAt = began;
    row.endedAt = clock.instant();
    row.size = verdict.size();
    row.root = verdict.root();
    row.trouble = verdict.trouble().map(trouble -> trouble.sentence()).orElse(null);
    row.outside = outsideTroubles.isEmpty() ? null : String.join(" ", outsideTroubles);
    row.askedBy = viewer.personId();
    repository.persist(row);
    return VerifiedLine.of(row);
  }
}
