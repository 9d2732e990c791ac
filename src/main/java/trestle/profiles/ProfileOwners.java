package trestle.profiles;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Viewer;

/** Whose rule profile a page is about: the operator's or an aircraft's, and how far it got. */
@ApplicationScoped
class ProfileOwners {
  @Inject RuleProfiles profiles;
  @Inject Fleet fleet;
  @Inject Members members;

  /**
   * Whose profile a page is about.
   *
   * @param aircraft null for the operator's own
   * @param path the address of its page
   */
  record Whose(AircraftSheet aircraft, String path) {
    UUID aircraftId() {
      return aircraft == null ? null : aircraft.id();
    }
  }

  /** What someone else filed meanwhile. */
  record Theirs(Revised revised, String by, List<ProfileWords.Part> parts) {}

  Whose operator() {
    return new Whose(null, "/rule-profile");
  }

  Whose aircraft(Viewer viewer, UUID aircraftId, View view) {
    return new Whose(
        fleet.sheet(viewer, aircraftId, view), "/aircraft/" + aircraftId + "/rule-profile");
  }

  /** The latest revision, or null where none was filed. */
  Revised latest(Viewer viewer, Whose whose) {
    List<Revised> all = profiles.history(viewer, whose.aircraftId());
    return all.isEmpty() ? null : all.get(all.size() - 1);
  }

  UUID latestId(Viewer viewer, Whose whose) {
    Revised latest = latest(viewer, whose);
    return latest == null ? null : latest.id();
  }

  /** The key of the example that a profile in force started from. */
  String startedFrom(Viewer viewer, Whose whose) {
    Revised latest = latest(viewer, whose);
    if (latest != null && !latest.ended()) {
      return latest.startedFrom();
    }
    return whose.aircraft() == null ? Examples.plain().key() : startedFrom(viewer, operator());
  }

  Theirs theirs(Viewer viewer, Whose whose) {
    Revised latest = latest(viewer, whose);
    return new Theirs(
        latest,
        members.names(viewer).get(latest.recordedBy()),
        ProfileWords.of(latest.profile(), null));
  }
}
