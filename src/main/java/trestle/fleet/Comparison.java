package trestle.fleet;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;

/** How two aircraft are equipped, side by side; what differs stands first. */
public record Comparison(List<Row> rows) {
  private static final String NOTHING = "\u2014";

  public Comparison {
    rows = List.copyOf(rows);
  }

  /** One thing; the words for an aircraft that doesn't have it are a dash. */
  public record Row(String what, String one, String other) {
    public boolean differs() {
      return !one.equals(other);
    }
  }

  static Comparison of(Configuration one, Configuration other) {
    List<Row> rows = new ArrayList<>();
    rows.addAll(
        rows(
            words(one.modifications(), mod -> mod.code() + " " + mod.title(), Comparison::words),
            words(
                other.modifications(), mod -> mod.code() + " " + mod.title(), Comparison::words)));
    rows.addAll(
        rows(
            words(one.equipment(), Configuration.Item::name, Comparison::words),
            words(other.equipment(), Configuration.Item::name, Comparison::words)));
    rows.add(new Row("Empty weight", words(one.emptyWeight()), words(other.emptyWeight())));
    List<Row> ordered = new ArrayList<>(rows.stream().filter(Row::differs).toList());
    rows.stream().filter(row -> !row.differs()).forEach(ordered::add);
    return new Comparison(ordered);
  }

  private static <T> Map<String, String> words(
      List<T> things, Function<T, String> name, Function<T, String> words) {
    return things.stream()
        .collect(Collectors.toMap(name, words, (first, second) -> first, TreeMap::new));
  }

  private static List<Row> rows(Map<String, String> one, Map<String, String> other) {
    Map<String, String> names = new TreeMap<>(one);
    names.putAll(other);
    return names.keySet().stream()
        .map(
            name ->
                new Row(name, one.getOrDefault(name, NOTHING), other.getOrDefault(name, NOTHING)))
        .toList();
  }

  private static String words(Configuration.Mod mod) {
    return mod.embodied() ? "embodied" : "removed";
  }

  private static String words(Configuration.Item item) {
    return item.placard().isEmpty() ? item.state() : item.state() + ", placard: " + item.placard();
  }

  private static String words(EmptyWeight weight) {
    EmptyWeight.Line now = weight.now();
    return now == null
        ? NOTHING
        : now.weight().stripTrailingZeros().toPlainString()
            + " "
            + now.entry().weightUnit()
            + " at "
            + now.arm().stripTrailingZeros().toPlainString()
            + " "
            + now.entry().armUnit();
  }
}
