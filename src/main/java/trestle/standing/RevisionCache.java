package trestle.standing;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import com.github.benmanes.caffeine.cache.Weigher;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.locks.Lock;
import java.util.concurrent.locks.ReentrantLock;
import java.util.function.Function;
import java.util.function.ToIntFunction;

/**
 * Values that hold for one aircraft as long as its revision and the days are the same: the
 * operator's and the one in UTC, in which some limits are counted. The revision is read before the
 * value's parts are, so a filing between the two makes the next request load again, and never
 * leaves an old value under a new revision.
 */
public final class RevisionCache<V> {

  private record Key(UUID operatorId, UUID aircraftId) {}

  /**
   * @param today the operator's date
   * @param utc the date in UTC
   */
  public record Days(LocalDate today, LocalDate utc) {}

  private record Kept<V>(long revision, Days days, V value) {}

  private final Cache<Key, Kept<V>> kept;

  /** One loads for an operator, and who asks meanwhile waits for that instead of doing the same. */
  private final Map<UUID, Lock> loading = new ConcurrentHashMap<>();

  /**
   * @param most how much is kept, all weights together
   * @param weight how much one value weighs
   */
  public RevisionCache(long most, ToIntFunction<V> weight) {
    Weigher<Key, Kept<V>> weigher = (key, value) -> 1 + weight.applyAsInt(value.value());
    this.kept = Caffeine.newBuilder().maximumWeight(most).weigher(weigher).build();
  }

  /** The value of one aircraft, if it is kept under this revision. */
  public Optional<V> kept(UUID operatorId, UUID aircraftId, long revision, Days days) {
    Kept<V> found = kept.getIfPresent(new Key(operatorId, aircraftId));
    return found != null && found.revision() == revision && found.days().equals(days)
        ? Optional.of(found.value())
        : Optional.empty();
  }

  /**
   * The values of these aircraft; those not kept under the revision given are loaded together.
   *
   * @param revisions the current revision of each aircraft asked for
   * @param load the values of the aircraft it is given; one it leaves out is left out here too
   */
  public Map<UUID, V> get(
      UUID operatorId,
      Map<UUID, Long> revisions,
      Days days,
      Function<Set<UUID>, Map<UUID, V>> load) {
    Map<UUID, V> values = new HashMap<>();
    if (find(operatorId, revisions, days, values).isEmpty()) {
      return values;
    }
    Lock turn = loading.computeIfAbsent(operatorId, id -> new ReentrantLock());
    turn.lock();
    try {
      Set<UUID> stale = find(operatorId, revisions, days, values);
      if (!stale.isEmpty()) {
        load.apply(stale)
            .forEach((id, value) -> keep(operatorId, id, revisions, days, value, values));
      }
      return values;
    } finally {
      turn.unlock();
    }
  }

  /** Fills in what is kept, and answers what is not. */
  private Set<UUID> find(
      UUID operatorId, Map<UUID, Long> revisions, Days days, Map<UUID, V> values) {
    Set<UUID> stale = new HashSet<>();
    revisions.forEach(
        (aircraftId, revision) -> {
          Optional<V> found = kept(operatorId, aircraftId, revision, days);
          found.ifPresentOrElse(
              value -> values.put(aircraftId, value), () -> stale.add(aircraftId));
        });
    return stale;
  }

  private void keep(
      UUID operatorId,
      UUID aircraftId,
      Map<UUID, Long> revisions,
      Days days,
      V value,
      Map<UUID, V> values) {
    kept.put(new Key(operatorId, aircraftId), new Kept<>(revisions.get(aircraftId), days, value));
    values.put(aircraftId, value);
  }
}
