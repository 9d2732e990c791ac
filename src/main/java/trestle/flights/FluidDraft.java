package trestle.flights;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import trestle.fleet.FuelUnit;
import trestle.web.Refusal;

/**
 * What a person found of fuel and oil at the end of a flight. Amounts that were not read are not in
 * the maps: not read is never zero.
 *
 * @param addedIn the unit of what was put in, as the receipt has it
 * @param density kg per litre, where the receipt's unit and the tanks' need one; else null
 * @param added by tank code, before the flight
 * @param gauge by tank code, after it, in the aircraft's fuel unit
 * @param dip by tank code, after it, in the aircraft's fuel unit
 * @param oilBefore by engine position: the level before anything was put in
 * @param oilAdded by engine position
 * @param oilChanged the engines whose oil was changed here
 * @param remark what the person says of a disagreement
 */
public record FluidDraft(
    FuelUnit addedIn,
    BigDecimal density,
    SortedMap<String, BigDecimal> added,
    SortedMap<String, BigDecimal> gauge,
    SortedMap<String, BigDecimal> dip,
    SortedMap<String, BigDecimal> oilBefore,
    SortedMap<String, BigDecimal> oilAdded,
    Set<String> oilChanged,
    String remark) {

  public FluidDraft {
    density = plain(density);
    added = plain(added);
    gauge = plain(gauge);
    dip = plain(dip);
    oilBefore = plain(oilBefore);
    oilAdded = plain(oilAdded);
    oilChanged = new TreeSet<>(oilChanged);
    remark = remark == null ? "" : remark.strip();
  }

  public boolean isEmpty() {
    return added.isEmpty()
        && gauge.isEmpty()
        && dip.isEmpty()
        && oilBefore.isEmpty()
        && oilAdded.isEmpty()
        && oilChanged.isEmpty();
  }

  /** What was put in, in the aircraft's unit; zero where nothing was. */
  BigDecimal addedTo(String tank, FuelUnit unit) {
    BigDecimal amount = added.get(tank);
    return amount == null ? BigDecimal.ZERO : addedIn.convert(amount, unit, density);
  }

  /** What is in a tank: by dip where it was dipped, else by gauge; null when neither was read. */
  BigDecimal measured(String tank) {
    return dip.containsKey(tank) ? dip.get(tank) : gauge.get(tank);
  }

  List<Refusal.Reason> faults(FluidArrangement arrangement) {
    List<Refusal.Reason> faults = new ArrayList<>();
    boolean anyAdded = added.values().stream().anyMatch(amount -> amount.signum() > 0);
    if (anyAdded && addedIn.needsDensity(arrangement.unit()) && density == null) {
      faults.add(
          new Refusal.Reason(
              "fuel-density",
              "Density is needed: fuel put in is in "
                  + addedIn.word()
                  + ", the tanks are read in "
                  + arrangement.unit().word()
                  + "."));
    }
    if (density != null && (tooLow(density) || density.compareTo(BigDecimal.ONE) > 0)) {
      faults.add(
          new Refusal.Reason(
              "fuel-density", "Density must be 0.5 to 1.0 kg per litre, like 0.72."));
    }
    for (FluidArrangement.Tank tank : arrangement.tanks()) {
      tooFull(faults, "fuel-gauge-", "by gauge", tank, gauge);
      tooFull(faults, "fuel-dip-", "by dip", tank, dip);
    }
    return faults;
  }

  private static boolean tooLow(BigDecimal density) {
    return density.compareTo(new BigDecimal("0.5")) < 0;
  }

  private static void tooFull(
      List<Refusal.Reason> faults,
      String field,
      String how,
      FluidArrangement.Tank tank,
      SortedMap<String, BigDecimal> read) {
    BigDecimal amount = read.get(tank.code());
    if (amount != null && tank.capacity() != null && amount.compareTo(tank.capacity()) > 0) {
      faults.add(
          new Refusal.Reason(
              field + tank.code(),
              tank.label()
                  + " "
                  + how
                  + " must be at most "
                  + trestle.web.Shown.quantity(tank.capacity())
                  + ", what the tanks hold."));
    }
  }

  private static SortedMap<String, BigDecimal> plain(SortedMap<String, BigDecimal> amounts) {
    SortedMap<String, BigDecimal> plain = new TreeMap<>();
    amounts.forEach((code, amount) -> plain.put(code, plain(amount)));
    return plain;
  }

  /** One form for equal amounts, so that the same form sent twice compares equal. */
  private static BigDecimal plain(BigDecimal amount) {
    if (amount == null) {
      return null;
    }
    BigDecimal stripped = amount.stripTrailingZeros();
    return stripped.scale() < 0 ? stripped.setScale(0) : stripped;
  }
}
