package trestle.flights;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import trestle.fleet.FuelUnit;
import trestle.web.Refusal;

/**
 * How one aircraft carries fuel and oil, and what agrees with what.
 *
 * @param revisionId the row that states it, or null while nobody has stated any
 * @param unit what its fuel is measured in, from its particulars
 * @param burnPerHour the planned rate in that unit, or null: then nothing is expected in the tanks
 * @param tolerancePercent of the higher figure
 * @param tanks by code, in the order of their codes
 * @param engines by position code
 */
public record FluidArrangement(
    UUID revisionId,
    FuelUnit unit,
    BigDecimal burnPerHour,
    BigDecimal tolerancePercent,
    List<Tank> tanks,
    SortedMap<String, Engine> engines) {

  /**
   * Tanks that are read together.
   *
   * @param capacity usable, in the aircraft's fuel unit, or null
   */
  public record Tank(String code, String label, BigDecimal capacity) {

    public static Tank named(String label, BigDecimal capacity) {
      return new Tank(FluidArrangement.code(label), label, capacity);
    }
  }

  /**
   * An engine's oil.
   *
   * @param unit of its dipstick
   * @param scale the side to read where one dipstick carries a scale for each side; or ""
   * @param limit the most it may use an hour, or null: the figure of that engine's own maker
   * @param least the level below which it must not run, or null
   */
  public record Engine(String unit, String scale, BigDecimal limit, BigDecimal least) {

    /** "quarts, read the LEFT scale". */
    public String words() {
      return scale.isEmpty()
          ? unit
          : unit + ", read the " + scale.toUpperCase(java.util.Locale.ROOT) + " scale";
    }
  }

  public FluidArrangement {
    tanks = List.copyOf(tanks);
    engines = new TreeMap<>(engines);
  }

  /** Nobody has stated any. */
  public static FluidArrangement none(FuelUnit unit) {
    return new FluidArrangement(null, unit, null, BigDecimal.ZERO, List.of(), new TreeMap<>());
  }

  public boolean isStated() {
    return revisionId != null;
  }

  public Tank tank(String code) {
    return tanks.stream().filter(tank -> tank.code().equals(code)).findFirst().orElse(null);
  }

  List<Refusal.Reason> faults() {
    List<Refusal.Reason> faults = new ArrayList<>();
    if (tanks.isEmpty()) {
      faults.add(new Refusal.Reason("tanks", "Tanks must name at least one."));
    }
    if (tanks.stream().map(Tank::code).distinct().count() < tanks.size()) {
      faults.add(new Refusal.Reason("tanks", "Tanks must have different names."));
    }
    if (tolerancePercent.compareTo(BigDecimal.valueOf(50)) > 0) {
      faults.add(new Refusal.Reason("tolerance", "Tolerance must be at most 50 per cent."));
    }
    if (burnPerHour != null && burnPerHour.signum() == 0) {
      faults.add(new Refusal.Reason("burn", "Planned burn must be above 0, or blank."));
    }
    return faults;
  }

  /** What to call tanks in a map's keys: "Main tanks" is "main-tanks". */
  static String code(String label) {
    return label
        .toLowerCase(java.util.Locale.ROOT)
        .replaceAll("[^a-z0-9]+", "-")
        .replaceAll("^-|-$", "");
  }

  static Map<String, String> texts(Map<String, BigDecimal> amounts) {
    Map<String, String> texts = new TreeMap<>();
    amounts.forEach(
        (code, amount) -> {
          if (amount != null) {
            texts.put(code, amount.toPlainString());
          }
        });
    return texts;
  }

  static SortedMap<String, BigDecimal> amounts(Map<String, String> texts) {
    SortedMap<String, BigDecimal> amounts = new TreeMap<>();
    texts.forEach((code, text) -> amounts.put(code, new BigDecimal(text)));
    return amounts;
  }
}
