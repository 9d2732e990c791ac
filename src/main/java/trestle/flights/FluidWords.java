package trestle.flights;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import trestle.flights.FuelAndOil.Question;
import trestle.web.Shown;

/** Fuel and oil in sentences. */
record FluidWords(FluidArrangement arrangement, Map<String, String> labels) {

  void ask(List<FuelComparison> fuel, List<Question> questions) {
    fuel.stream()
        .filter(comparison -> !comparison.check().agrees())
        .forEach(comparison -> questions.add(new Question("fluid-remark", sentence(comparison))));
  }

  void ask(String position, OilUse use, List<Question> questions) {
    FluidArrangement.Engine engine = arrangement.engines().get(position);
    if (engine == null) {
      return;
    }
    String label = labels.getOrDefault(position, position);
    if (use.rose()) {
      questions.add(
          new Question(
              "oil-level-" + position,
              label
                  + ": the oil level rose by "
                  + amount(use.used().negate(), engine.unit())
                  + " with nothing added."
                  + (engine.scale().isEmpty() ? "" : " Is it the " + side(engine) + " scale?")));
    } else if (use.exceeds(engine.limit())) {
      questions.add(
          new Question(
              "oil-level-" + position,
              label
                  + ": it used "
                  + amount(use.used(), engine.unit())
                  + " since the last reading"
                  + (use.perHour() == null ? "" : ", " + Shown.quantity(use.perHour()) + " an hour")
                  + "; its limit is "
                  + amount(engine.limit(), engine.unit())
                  + " an hour."));
    }
    BigDecimal after = use.at().after();
    if (after != null && engine.least() != null && after.compareTo(engine.least()) < 0) {
      questions.add(
          new Question(
              "oil-level-" + position,
              label
                  + ": "
                  + amount(after, engine.unit())
                  + " is below the least it may run with, "
                  + amount(engine.least(), engine.unit())
                  + "."));
    }
  }

  /** "All tanks: about 152 litres expected, 130 read: 22 less, more than your 3 %." */
  String sentence(FuelComparison comparison) {
    FuelCheck check = comparison.check();
    String unit = arrangement.unit().word();
    BigDecimal difference = check.difference();
    String there = amount(check.expected(), unit);
    String read = one(check.measured()) + " read";
    String figures =
        switch (comparison.against()) {
          case DIP -> there + " by dip, " + one(check.measured()) + " by gauge";
          case EXPECTED -> "about " + there + " expected, " + read;
          case MOST -> there + " at most by what was left and put in, " + read;
          case LEAST -> there + " at least, had all been burned from here, " + read;
        };
    return comparison.tank()
        + ": "
        + figures
        + ": "
        + one(difference.abs())
        + (difference.signum() < 0 ? " less" : " more")
        + (check.agrees() ? ", within your " : ", more than your ")
        + Shown.quantity(check.tolerancePercent())
        + " %.";
  }

  /** "Main tanks 148 litres, 20 put in; engine 9.5 quarts, 1 added". */
  String what(FluidDraft draft) {
    List<String> parts = new ArrayList<>();
    for (FluidArrangement.Tank tank : arrangement.tanks()) {
      BigDecimal measured = draft.measured(tank.code());
      BigDecimal added = draft.added().get(tank.code());
      if (measured != null || added != null) {
        parts.add(
            tank.label()
                + (measured == null ? "" : " " + amount(measured, arrangement.unit().word()))
                + (added == null ? "" : ", " + amount(added, draft.addedIn().word()) + " put in"));
      }
    }
    return String.join("; ", parts);
  }

  /** "9.5 quarts, 1 added". */
  String level(OilUse.Level level, FluidArrangement.Engine engine) {
    String unit = engine == null ? "" : " " + engine.unit();
    String read = level.before() == null ? "not read" : Shown.quantity(level.before()) + unit;
    String added =
        level.added().signum() == 0 ? "" : ", " + Shown.quantity(level.added()) + " added";
    return read + added + (level.changed() ? ", oil changed" : "");
  }

  /** "0.5 in 3.2 h: 0.157 an hour". */
  String used(OilUse use, FluidArrangement.Engine engine) {
    if (use.used() == null) {
      return use.at().changed() ? "begins anew" : "no reading before";
    }
    if (use.rose()) {
      return "rose by " + Shown.quantity(use.used().negate()) + " with nothing added";
    }
    String over = engine != null && use.exceeds(engine.limit()) ? ", above its limit" : "";
    return use.perHour() == null
        ? Shown.quantity(use.used()) + ", hours not known"
        : Shown.quantity(use.perHour()) + " an hour" + over;
  }

  private static String side(FluidArrangement.Engine engine) {
    return engine.scale().toUpperCase(Locale.ROOT);
  }

  private static String amount(BigDecimal amount, String unit) {
    return one(amount) + " " + unit;
  }

  /** To a tenth, as a person reads a gauge. */
  static String one(BigDecimal amount) {
    return Shown.quantity(amount.setScale(1, RoundingMode.HALF_UP));
  }
}
