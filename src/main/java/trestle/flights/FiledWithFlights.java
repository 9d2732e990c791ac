package trestle.flights;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.web.Viewer;

/** All that was filed with flights, whichever room it is of. */
@ApplicationScoped
class FiledWithFlights {
  @Inject Instance<FiledWith> rooms;

  /** By the row of each flight that counts; empty where nothing came with it. */
  Map<UUID, List<FiledWith.Line>> of(Viewer viewer, List<Flights.Entry> flights) {
    List<UUID> ids = flights.stream().map(flight -> flight.current().entryId()).toList();
    Map<UUID, List<FiledWith.Line>> with = new HashMap<>();
    flights.forEach(flight -> with.put(flight.current().id(), new ArrayList<>()));
    for (FiledWith room : rooms) {
      Map<UUID, List<FiledWith.Line>> lines = room.of(viewer, ids);
      for (Flights.Entry flight : flights) {
        with.get(flight.current().id())
            .addAll(lines.getOrDefault(flight.current().entryId(), List.of()));
      }
    }
    return with;
  }
}
