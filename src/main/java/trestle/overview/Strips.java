package trestle.overview;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Viewer;

/** What aircraft have run, put in words; read for many at once. */
@ApplicationScoped
class Strips {
  Map<UUID, Strip> of(Viewer viewer, Collection<UUID> aircraftIds, View view) {
    Map<UUID, Strip> strips = new HashMap<>();
    aircraftIds.forEach(id -> strips.put(id, Strip.NONE));
    return strips;
  }
}
