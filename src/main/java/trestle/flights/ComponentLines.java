package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.ComponentHistory;
import trestle.fleet.Components;
import trestle.ledger.View;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** What components have run, read for many at once in a constant number of statements. */
@ApplicationScoped
public class ComponentLines {
  @Inject Components components;
  @Inject UsageLines usageLines;

  /** A line for every component asked for that is in the view. */
  @Reading
  public Map<UUID, ComponentLine> of(Viewer viewer, Collection<UUID> componentIds, View view) {
    return lines(viewer, components.histories(viewer, componentIds, view), view);
  }

  /** The lines of everything that is fitted to these aircraft at the end of the view. */
  @Reading
  public Map<UUID, ComponentLine> fittedTo(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    return lines(viewer, components.fittedTo(viewer, aircraftIds, view), view);
  }

  /**
   * @throws NotHere when the operator had no such component in the view
   */
  @Reading
  public ComponentLine of(Viewer viewer, UUID componentId, View view) {
    ComponentLine line = of(viewer, List.of(componentId), view).get(componentId);
    if (line == null) {
      throw new NotHere("There is no such component here.");
    }
    return line;
  }

  private Map<UUID, ComponentLine> lines(
      Viewer viewer, Map<UUID, ComponentHistory> histories, View view) {
    Set<UUID> aircraft = new HashSet<>();
    histories
        .values()
        .forEach(
            history -> history.fittings().forEach(fitting -> aircraft.add(fitting.aircraftId())));
    Map<UUID, UsageLine> lines = usageLines.of(viewer, aircraft, view);
    Map<UUID, ComponentLine> all = new HashMap<>();
    histories.forEach((id, history) -> all.put(id, new ComponentLine(history, lines)));
    return all;
  }
}
