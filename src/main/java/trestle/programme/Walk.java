package trestle.programme;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.reckoning.Counter;
import trestle.reckoning.Extension;
import trestle.reckoning.History;
import trestle.reckoning.Reading;
import trestle.reckoning.Reckoner;
import trestle.reckoning.Reckoning;
import trestle.reckoning.Rule;
import trestle.reckoning.Situation;
import trestle.reckoning.Usage;
import trestle.standing.Force;

/**
 * Goes through what was done to one subject, doing by doing, and asks of each how the rule of that
 * day stood just before it.
 */
record Walk(
    UUID aircraftId,
    SubjectLine line,
    SubjectHistory history,
    List<ExtensionRow> extensions,
    Followings followed,
    Exclusions exclusions,
    ZoneId zone) {

  /** One requirement as it stood between two doings. */
  private record Stretch(Revision revision, Rule rule, History history, Instant from) {

    Reckoning at(LocalDate day, Usage usage) {
      return Reckoner.reckon(rule, history, new Situation(day, usage));
    }

    /** Work done exactly at its limit is not past it: one unit less is then still good. */
    boolean isPast(LocalDate day, Usage usage) {
      Map<Counter, Long> less = new HashMap<>();
      usage.toMap().forEach((counter, units) -> less.put(counter, Math.max(0, units - 1)));
      return at(day, Usage.ofUnits(less)).spent();
    }
  }

  /**
   * The overruns of one requirement.
   *
   * @param revisions all that was said of it, oldest first
   * @param open the revision that is carried at the end of the view, or null
   */
  List<Overruns.Overrun> of(List<Revision> revisions, UUID open, LocalDate today) {
    List<Overruns.Overrun> found = new ArrayList<>();
    if (revisions.isEmpty()) {
      return found;
    }
    UUID requirement = revisions.get(0).requirementId();
    List<SubjectHistory.Counted> all = history.inOrder(requirement);
    for (int i = 0; i < all.size(); i++) {
      SubjectHistory.Counted counted = all.get(i);
      boolean again =
          i > 0
              && !all.get(i - 1).doing().isBaseline()
              && SubjectHistory.sameOccasion(all.get(i - 1), counted);
      Revision then = again || counted.doing().isBaseline() ? null : then(revisions, counted);
      if (then != null && !then.withdrawn()) {
        Doing doing = counted.doing();
        add(
            found,
            stretch(then, history.first(requirement, i), doing.at()),
            new End(doing.at(), doing.on(), counted.reading().usage(), doing.on()),
            aircraftId.equals(doing.aircraftId()) && !wasExcluded(requirement, doing.on()));
      }
    }
    revisions.stream()
        .filter(revision -> revision.id().equals(open))
        .forEach(
            revision ->
                add(
                    found,
                    stretch(revision, history.of(requirement), Instant.MAX),
                    new End(Instant.MAX, today, line.now(), null),
                    true));
    return found;
  }

  /** On that day, or up to it: it is done in time on the day on which it is carried again. */
  private boolean wasExcluded(UUID requirement, LocalDate day) {
    return exclusions.hold(aircraftId, requirement, day)
        || exclusions.hold(aircraftId, requirement, day.minusDays(1));
  }

  /**
   * Where a stretch ends.
   *
   * @param doneOn null at the end of the view
   */
  private record End(Instant at, LocalDate on, Usage usage, LocalDate doneOn) {}

  /** What bound it on the day of a doing, or null. */
  private Revision then(List<Revision> revisions, SubjectHistory.Counted counted) {
    LocalDate on = counted.doing().on();
    long under = followed.under(counted.doing().aircraftId(), on);
    Revision then = null;
    for (Revision revision : revisions) {
      if (!revision.inForceFrom().isAfter(on) && revision.under() <= under) {
        then = revision;
      }
    }
    return then;
  }

  private Stretch stretch(Revision revision, SubjectHistory.Of before, Instant end) {
    Rule rule = Rules.sinceNew(revision.terms().rule(), line::isSinceNew);
    List<Reading> doings = new ArrayList<>();
    before.doings().forEach(counted -> doings.add(counted.reading()));
    Instant inForce = revision.inForceFrom().atStartOfDay(zone).toInstant();
    Instant last = before.last() == null ? inForce : before.last().at();
    return new Stretch(
        revision,
        rule,
        new History(
            before.baseline() == null ? null : before.baseline().reading(),
            doings,
            Rules.namesOrigin(rule) ? origins(revision, end) : Map.of(),
            extensions(revision, before)),
        last.isAfter(inForce) ? last : inForce);
  }

  private Map<String, Reading> origins(Revision revision, Instant end) {
    Map<String, Reading> origins = new HashMap<>(line.originsBefore(end));
    LocalDate day = revision.terms().effectiveOn();
    origins.put(Rules.EFFECTIVE, new Reading(day, line.at(day.atStartOfDay(zone).toInstant())));
    return origins;
  }

  private List<Extension> extensions(Revision revision, SubjectHistory.Of before) {
    return extensions.stream()
        .filter(row -> row.requirementId().equals(revision.requirementId()))
        .filter(row -> before.doingsBy(row.at()) == before.doings().size())
        .map(row -> new Extension(row.path(), before.doingsBy(row.at()), row.newDue()))
        .toList();
  }

  /**
   * @param here whether it belongs to this aircraft's list even where nothing was flown past it
   */
  private void add(List<Overruns.Overrun> found, Stretch stretch, End end, boolean here) {
    if (!stretch.isPast(end.on(), end.usage())) {
      return;
    }
    List<Instant> past = past(stretch, end);
    if (here || !past.isEmpty()) {
      found.add(
          new Overruns.Overrun(
              stretch.revision().requirementId(),
              stretch.revision().terms().title(),
              line.subject(),
              stretch.revision().terms().force() == Force.MANDATORY,
              stretch.at(end.on(), end.usage()).controllingLimit(),
              end.doneOn(),
              past.size(),
              past.isEmpty() ? null : day(past.get(0)),
              past.isEmpty() ? null : day(past.get(past.size() - 1))));
    }
  }

  /**
   * The landings of a stretch past the limit, all from the first on, since nothing goes back; less
   * those on days on which the aircraft did not carry it.
   */
  private List<Instant> past(Stretch stretch, End end) {
    List<Instant> landings = line.landings(aircraftId, stretch.from(), end.at());
    int low = 0;
    int high = landings.size();
    while (low < high) {
      int middle = (low + high) >>> 1;
      Instant landing = landings.get(middle);
      if (stretch.isPast(day(landing), line.at(landing))) {
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    UUID requirement = stretch.revision().requirementId();
    return landings.subList(low, landings.size()).stream()
        .filter(landing -> !exclusions.hold(aircraftId, requirement, day(landing)))
        .toList();
  }

  private LocalDate day(Instant moment) {
    return moment.atZone(zone).toLocalDate();
  }
}
