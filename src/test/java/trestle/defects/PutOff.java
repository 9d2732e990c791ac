package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.reckoning.DeferralClock.Category;
import trestle.web.Role;
import trestle.web.Viewer;

/** An open defect and one that is deferred, made through the use cases. */
@ApplicationScoped
public class PutOff {
  @Inject Defects defects;
  @Inject Deferrals deferrals;
  @Inject IdentityProof identity;

  /** What was made: a defect that waits, and the deferral of another. */
  public record Found(UUID waiting, UUID deferral) {}

  /**
   * @param viewer an engineer with the password of a {@link Company}
   * @param mark a word that stands in everything
   */
  public Found of(Viewer viewer, String mark, UUID aircraft, String licence, Instant at) {
    UUID deferred = report(viewer, mark + " lamp is dim", aircraft, at);
    UUID deferral =
        deferrals.defer(
            viewer,
            identity.prove(viewer, Company.PASSWORD),
            new NewDeferral(
                deferred,
                at,
                Role.ENGINEER,
                licence,
                NewDeferral.Listed.of(mark + " 33-1", Category.C),
                null,
                new NewDeferral.Conditions(mark + " by day", "night", mark, mark, mark, mark)),
            null);
    return new Found(report(viewer, mark + " seat rattles", aircraft, at), deferral);
  }

  private UUID report(Viewer viewer, String words, UUID aircraft, Instant at) {
    DefectDraft draft =
        new DefectDraft(words, "33", "", null, null, Judgement.CAN_FLY, null, false, "", at);
    return defects.report(viewer, aircraft, draft, List.of(), null, null).entryId();
  }
}
