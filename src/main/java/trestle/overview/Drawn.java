package trestle.overview;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.quarkus.qute.RawString;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;
import trestle.web.LongPart;

/**
 * Mark-up of the long parts of pages, kept as long as the overview it was made from is: a fleet of
 * fifty or a due table of a hundred lines is written once for each revision and day.
 */
@ApplicationScoped
class Drawn {
  private final Cache<AircraftOverview, RawString> rows = kept(2_000);
  private final Cache<AircraftOverview, Map<For, LongPart>> bodies = kept(500);

  /** Whom a page is drawn for: what its links offer. */
  record For(boolean mayLog, boolean mayKeep, boolean mayHandOver) {}

  RawString row(AircraftOverview overview, Supplier<String> markUp) {
    return rows.get(overview, any -> new RawString(markUp.get()));
  }

  LongPart body(AircraftOverview overview, For whom, Supplier<String> markUp) {
    return bodies
        .get(overview, any -> new ConcurrentHashMap<>())
        .computeIfAbsent(whom, any -> new LongPart(markUp.get()));
  }

  /** By identity, so that what is shown never outlives what it was made from. */
  private static <T> Cache<AircraftOverview, T> kept(int most) {
    return Caffeine.newBuilder().weakKeys().maximumSize(most).build();
  }
}
