package trestle.directives;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Alike;
import trestle.fleet.Named;
import trestle.fleet.PartCounts;

/**
 * The parts that a paragraph names and nobody ever judged: all alike, to be assessed. Most are only
 * counted.
 *
 * @param others those that had to be looked at one by one
 */
record Unjudged(List<Alike> alike, List<Named.Part> others) {

  static Unjudged none() {
    return new Unjudged(new ArrayList<>(), new ArrayList<>());
  }

  int many() {
    return others.size() + alike.stream().mapToInt(Alike::many).sum();
  }

  PartCounts.Window window(UUID paragraphId, int from, int to) {
    return new PartCounts.Window(paragraphId, alike, others, from, to - from);
  }
}
