package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.PartKind;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Reading;
import trestle.reckoning.Usage;
import trestle.reckoning.Utilisation;
import trestle.standing.Subject;
import trestle.web.NotHere;
import trestle.web.Viewer;

/** The subjects of requirements, with how their counters ran: aircraft, and the parts on them. */
@ApplicationScoped
class Subjects {
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject UsageLines usageLines;
  @Inject ComponentLines componentLines;

  /** Each aircraft, and each part fitted to it at the end of the view. */
  List<SubjectLine> onAircraft(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, AircraftSheet> sheets = fleet.sheets(viewer, aircraftIds, view);
    Map<UUID, UsageLine> usage = usageLines.of(viewer, aircraftIds, view);
    List<ComponentLine> parts =
        componentLines.fittedTo(viewer, aircraftIds, view).values().stream()
            .sorted(Comparator.comparing(part -> part.history().fitted().from()))
            .toList();
    Map<UUID, Utilisation> rates = new HashMap<>();
    List<SubjectLine> lines = new ArrayList<>();
    for (UUID id : Set.copyOf(aircraftIds)) {
      Utilisation rate = usage.get(id).utilisation(view.upTo());
      rates.put(id, rate);
      String words = sheets.containsKey(id) ? sheets.get(id).registration() : "this aircraft";
      lines.add(AircraftLine.of(aircraftSubject(id, words), usage.get(id), rate));
    }
    for (ComponentLine part : parts) {
      Fitting fitting = part.history().fitted();
      lines.add(PartLine.of(subject(fitting), part, rates.get(fitting.aircraftId())));
    }
    return lines;
  }

  /** An aircraft, and every part that was ever on it, as it was placed there last. */
  List<SubjectLine> everOn(Viewer viewer, UUID aircraftId, View view) {
    List<SubjectLine> lines = new ArrayList<>(aircraft(viewer, aircraftId, view));
    Map<UUID, Fitting> last = new HashMap<>();
    components
        .fittings(viewer, List.of(aircraftId), view)
        .getOrDefault(aircraftId, List.of())
        .forEach(fitting -> last.put(fitting.componentId(), fitting));
    Map<UUID, ComponentLine> parts = componentLines.of(viewer, last.keySet(), view);
    last.forEach(
        (id, fitting) -> lines.add(PartLine.of(subject(fitting), parts.get(id), Utilisation.NONE)));
    return lines;
  }

  List<SubjectLine> aircraft(Viewer viewer, UUID aircraftId, View view) {
    return List.of(line(viewer, aircraftId, null, view));
  }

  List<SubjectLine> component(Viewer viewer, UUID componentId, View view) {
    return List.of(line(viewer, null, componentId, view));
  }

  /**
   * @throws NotHere when the operator has no such aircraft, or no such component
   */
  SubjectLine line(Viewer viewer, UUID aircraftId, UUID componentId, View view) {
    if (componentId == null) {
      String words = fleet.sheet(viewer, aircraftId, view).registration();
      UsageLine usage = usageLines.of(viewer, aircraftId, view);
      return AircraftLine.of(
          aircraftSubject(aircraftId, words), usage, usage.utilisation(view.upTo()));
    }
    ComponentHistory history = components.history(viewer, componentId, view);
    ComponentLine line = componentLines.of(viewer, List.of(componentId), view).get(componentId);
    Fitting fitting = history.fitted();
    if (fitting == null) {
      Subject subject =
          new Subject(kind(history.sheet().kind()), componentId, null, history.sheet().words());
      return PartLine.of(subject, line, Utilisation.NONE);
    }
    return PartLine.of(
        subject(fitting),
        line,
        usageLines.of(viewer, fitting.aircraftId(), view).utilisation(view.upTo()));
  }

  /** The aircraft to which a component is fitted now; empty for one on the shelf. */
  List<UUID> aircraftWith(Viewer viewer, UUID componentId) {
    Fitting fitting = components.history(viewer, componentId, Records.ALL).fitted();
    return fitting == null ? List.of() : List.of(fitting.aircraftId());
  }

  /** The aircraft to which a component of this part number is fitted now. */
  Set<UUID> aircraftWith(Viewer viewer, String partNumber) {
    List<UUID> same =
        components.sheets(viewer, Records.ALL).stream()
            .filter(sheet -> sheet.partNumber().equalsIgnoreCase(partNumber))
            .map(ComponentSheet::id)
            .toList();
    Set<UUID> aircraft = new HashSet<>();
    for (ComponentHistory history : components.histories(viewer, same, Records.ALL).values()) {
      if (history.fitted() != null) {
        aircraft.add(history.fitted().aircraftId());
      }
    }
    return aircraft;
  }

  /** Whether a component is one that a requirement about this kind of subject can be about. */
  boolean isOfKind(Viewer viewer, UUID componentId, String subject) {
    PartKind kind = components.history(viewer, componentId, Records.ALL).sheet().kind();
    return subject.equals(Subject.COMPONENT) || subject.equals(kind.word());
  }

  private static Subject aircraftSubject(UUID id, String words) {
    return new Subject(Subject.AIRCRAFT, id, id, words);
  }

  private static Subject subject(Fitting fitting) {
    return new Subject(
        kind(fitting.kind()),
        fitting.componentId(),
        fitting.aircraftId(),
        fitting.positionLabel() + ", serial " + fitting.serial());
  }

  private static String kind(PartKind kind) {
    return kind == PartKind.OTHER ? Subject.COMPONENT : kind.word();
  }

  private record AircraftLine(Subject subject, UsageLine line, Usage now, Utilisation utilisation)
      implements SubjectLine {

    static AircraftLine of(Subject subject, UsageLine line, Utilisation rate) {
      return new AircraftLine(subject, line, line.total(), rate);
    }

    @Override
    public Usage at(Instant moment) {
      return line.usageAt(moment);
    }

    @Override
    public List<Instant> landings(UUID aircraft, Instant after, Instant by) {
      return line.landings(after, by);
    }

    /** An aircraft's totals are since new; on which day that was is not recorded. */
    @Override
    public Map<String, Reading> origins() {
      Map<Counter, Long> nothing = new HashMap<>();
      line.counters().forEach(counter -> nothing.put(counter, 0L));
      return Map.of(Rules.NEW, new Reading(null, Usage.ofUnits(nothing)));
    }
  }

  private record PartLine(Subject subject, ComponentLine line, Usage now, Utilisation utilisation)
      implements SubjectLine {

    static PartLine of(Subject subject, ComponentLine line, Utilisation rate) {
      return new PartLine(subject, line, line.total(), rate);
    }

    @Override
    public Usage at(Instant moment) {
      return line.usageAt(moment);
    }

    @Override
    public Map<String, Reading> origins() {
      return line.origins();
    }

    @Override
    public Map<String, Reading> originsBefore(Instant moment) {
      return line.originsBefore(moment);
    }

    @Override
    public List<Instant> landings(UUID aircraft, Instant after, Instant by) {
      return line.landings(aircraft, after, by);
    }

    @Override
    public String partNumber() {
      return line.history().sheet().partNumber();
    }

    @Override
    public boolean isSinceNew(Counter counter) {
      return line.axis(counter).isEmpty() || line.isSinceNew(counter);
    }
  }
}
