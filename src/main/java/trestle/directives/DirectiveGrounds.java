package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.standing.Ground;
import trestle.standing.Grounds;
import trestle.web.Viewer;

/**
 * What holds an aircraft by this room's records: a mandatory directive that may be about it, or
 * about a part on it, and that nobody has assessed nor waived. What applies is among what falls
 * due.
 */
@ApplicationScoped
class DirectiveGrounds implements Grounds {
  @Inject Status status;

  @Override
  public Map<UUID, List<Ground>> grounds(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, List<Ground>> grounds = new HashMap<>();
    status
        .ofAircraft(viewer, aircraftIds, view)
        .forEach(
            (id, lines) ->
                lines.stream()
                    .filter(Status.Line::holds)
                    .forEach(
                        line ->
                            grounds
                                .computeIfAbsent(id, any -> new ArrayList<>())
                                .add(ground(line))));
    return grounds;
  }

  private static Ground ground(Status.Line line) {
    String of = line.item().isComponent() ? " for " + line.item().words() : "";
    return Ground.held(
        "Directive " + line.name() + " is to be assessed" + of + ": " + line.judged().why() + ".",
        line.link());
  }
}
