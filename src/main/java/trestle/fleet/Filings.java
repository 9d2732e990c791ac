package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Any;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What every filing of this room needs: the ledger, the clock, and the usual refusals. */
@ApplicationScoped
class Filings {
  @Inject AircraftRepository repository;
  @Inject Ledger ledger;
  @Inject InstantSource clock;
  @Inject @Any Instance<UsageFollower> followers;

  void file(Viewer viewer, Filed row) {
    file(viewer, List.of(row));
  }

  void file(Viewer viewer, List<? extends Filed> rows) {
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), clock.instant()), rows);
  }

  Instant instant() {
    return clock.instant();
  }

  LocalDate today(Viewer viewer) {
    return viewer.dateOf(clock.instant());
  }

  View now(Viewer viewer) {
    return View.asAt(today(viewer));
  }

  Instant notLater(Instant moment, String field) {
    if (moment.isAfter(clock.instant())) {
      throw new Refusal(field, "The moment must not be in the future.");
    }
    return moment;
  }

  static void reasonNeeded(String reason) {
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it changes.");
    }
  }

  static void refuse(List<Refusal.Reason> faults) {
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
  }

  <T extends Filed> T correctable(Class<T> kind, UUID id, String reason) {
    reasonNeeded(reason);
    T original =
        repository.row(kind, id).orElseThrow(() -> new NotHere("There is no such record here."));
    if (repository.isCorrected(kind, id)) {
      throw new Stale("Someone corrected this record since you opened this form.");
    }
    return original;
  }

  void follow(Viewer viewer, UUID aircraftId) {
    repository.flush();
    followers.forEach(follower -> follower.reckonAgain(viewer, aircraftId));
  }
}
