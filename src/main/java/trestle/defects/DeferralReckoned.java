package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.flights.UsageLine;
import trestle.reckoning.Amount;
import trestle.reckoning.Calendar;
import trestle.reckoning.Companion;
import trestle.reckoning.Counter;
import trestle.reckoning.DeferralClock;
import trestle.reckoning.History;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoner;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Rule;
import trestle.reckoning.Situation;
import trestle.reckoning.State;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;
import trestle.standing.DueItem;
import trestle.standing.Force;
import trestle.standing.Granted;
import trestle.standing.Subject;

/** One deferral, reckoned: a rule that ends once, over what was flown since. */
final class DeferralReckoned {
  static final String KIND = "deferral";
  private static final Interval SOON = Interval.ofDays(3);

  private final DeferralSheet deferral;
  private final Defect defect;
  private final DeferralItems.Facts facts;
  private final LocalDate today;

  DeferralReckoned(DeferralSheet deferral, Defect defect, DeferralItems.Facts facts) {
    this.deferral = deferral;
    this.defect = defect;
    this.facts = facts;
    this.today = facts.today(deferral);
  }

  DueItem item() {
    if (deferral.withRequirementId() != null) {
      return withOther();
    }
    if (deferral.lastDay() != null) {
      Rule rule =
          Rule.first(new Limit.Fixed(Calendar.DAYS, deferral.lastDay().toEpochDay(), SOON, null))
              .onlyOnce();
      return item(rule, Map.of(), Usage.NONE, Utilisation.NONE, Map.of(), List.of());
    }
    return deferral.unit().byFlights() ? byFlights() : byCounter();
  }

  /** Days without flights don't count; a day counts when it is over. */
  private DueItem byFlights() {
    List<Instant> takeOffs = facts.takeOffs().getOrDefault(deferral.aircraftId(), List.of());
    long flown =
        deferral.unit() == DeferralUnit.FLIGHT_DAYS
            ? takeOffs.stream()
                .map(deferral::dayOf)
                .filter(day -> day.isAfter(deferral.discoveredOn()) && day.isBefore(today))
                .distinct()
                .count()
            : takeOffs.stream().filter(at -> at.isAfter(deferral.at())).count();
    Counter counter = deferral.unit().counter();
    return counted(
        counter,
        Usage.ofUnits(Map.of(counter, 0L)),
        Usage.ofUnits(Map.of(counter, flown)),
        Utilisation.NONE);
  }

  private DueItem byCounter() {
    UsageLine line = facts.usage().get(deferral.aircraftId());
    Counter counter = deferral.unit().counter();
    return counted(
        counter, line.usageAt(deferral.at()), line.total(), line.utilisation(facts.view().upTo()));
  }

  private DueItem counted(Counter counter, Usage then, Usage now, Utilisation rate) {
    Rule rule = DeferralClock.inUse(counter, new Amount(deferral.amount(), counter.unit()));
    Map<String, Reading> origins = Map.of(DeferralClock.DEFERRED, new Reading(deferral.on(), then));
    return item(rule, origins, now, rate, Map.of(), List.of());
  }

  /** Due when the inspection is next done; done after the day of deferral, it is overdue. */
  private DueItem withOther() {
    DueItem other = other();
    Map<String, Companion> companions = new HashMap<>();
    if (other != null) {
      companions.put(
          deferral.withRequirementId().toString(),
          new Companion(other.reckoning(), doneSince(other)));
    }
    List<String> missing =
        other == null
            ? List.of("The inspection it is due with is no longer required of this aircraft.")
            : List.of();
    Rule rule = Rule.first(new Limit.With(deferral.withRequirementId().toString())).onlyOnce();
    return item(rule, Map.of(), Usage.NONE, Utilisation.NONE, companions, missing);
  }

  private DueItem other() {
    return facts.others().getOrDefault(deferral.aircraftId(), List.of()).stream()
        .filter(item -> item.requirementId().equals(deferral.withRequirementId()))
        .filter(
            item ->
                deferral.withComponentId() == null
                    || item.subject().id().equals(deferral.withComponentId()))
        .findFirst()
        .orElse(null);
  }

  private boolean doneSince(DueItem other) {
    return other.lastDone() != null
        && !other.lastDone().baseline()
        && facts.viewer().dateOf(other.lastDone().at()).isAfter(deferral.on());
  }

  private DueItem item(
      Rule rule,
      Map<String, Reading> origins,
      Usage now,
      Utilisation rate,
      Map<String, Companion> companions,
      List<String> missing) {
    Reckoning reckoning =
        Reckoner.reckon(
            rule,
            new History(null, List.of(), origins, List.of()),
            new Situation(today, now, rate, companions));
    return new DueItem(
        deferral.id(),
        deferral.id(),
        subject(),
        "Deferred defect No. " + defect.number + ", " + Brief.of(defect.words),
        KIND,
        Force.MANDATORY,
        DueItem.ANY_FLIGHT,
        false,
        "",
        source(),
        null,
        null,
        rule,
        words(),
        null,
        now,
        rate,
        granted(),
        unknown(reckoning, missing),
        reckoning,
        deferral.link());
  }

  private static List<String> unknown(Reckoning reckoning, List<String> missing) {
    return reckoning.state() == State.UNKNOWN && missing.isEmpty()
        ? List.of("What was flown since it was deferred is not known.")
        : missing;
  }

  private String source() {
    String by =
        deferral.category() == null
            ? "without a list"
            : deferral.listReference() + ", item " + deferral.item();
    return deferral.isTranscribed() ? by + "; transcribed from " + deferral.transcribedFrom() : by;
  }

  private String words() {
    if (deferral.withRequirementId() != null) {
      DueItem other = other();
      return other == null ? "with an inspection" : "with the next " + other.title();
    }
    return deferral.lastDay() == null ? "for " + deferral.until() : "until " + deferral.until();
  }

  private List<Granted> granted() {
    return deferral.extensions().stream()
        .map(
            one ->
                new Granted(
                    one.id(),
                    List.of(0),
                    one.newLastDay().toEpochDay(),
                    one.approvedBy(),
                    one.reference()))
        .toList();
  }

  private Subject subject() {
    UUID id = deferral.aircraftId();
    return new Subject(Subject.AIRCRAFT, id, id, facts.sheets().get(id).registration());
  }
}
