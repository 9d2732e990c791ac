package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * Components counted by the database, and shown a page at a time, where there may be hundreds of
 * thousands. Counted are those stated once, with letters around one number for a serial; the others
 * are few, and looked at one by one. Each of these takes one statement.
 */
@ApplicationScoped
public class PartCounts {
  @Inject PartCountRepository repository;

  /**
   * Some of the components of one question: those of {@code alike} and {@code others} in the order
   * of their part numbers and serials, {@code most} of them after the first {@code offset}.
   */
  public record Window(
      UUID whose, List<Alike> alike, List<Named.Part> others, int offset, int most) {}

  /** Those stated anew since they were registered; they are not to be counted. */
  @Reading
  public List<UUID> statedAnew(Viewer viewer) {
    return repository.statedAnew();
  }

  /**
   * The components of these part numbers that are not counted: their serial is not letters around
   * one number, or they were stated anew.
   */
  @Reading
  public List<Named.Part> others(
      Viewer viewer, Collection<String> partKeys, Collection<UUID> statedAnew, View view) {
    return repository.others(partKeys, statedAnew, view);
  }

  /** How many are written how in each stretch, {@code without} some components. */
  @Reading
  public List<Alike> counts(
      Viewer viewer, List<Stretch> stretches, Collection<UUID> without, View view) {
    return repository.counts(stretches, without, view);
  }

  /** By whose question it is, those within its window. */
  @Reading
  public Map<UUID, List<Named.Part>> shown(
      Viewer viewer, List<Window> windows, Collection<UUID> without, View view) {
    return repository.shown(windows, without, view);
  }
}
