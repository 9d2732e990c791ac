package trestle.flights;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.UUID;
import trestle.fleet.FuelUnit;
import trestle.fleet.Position;
import trestle.web.Form;
import trestle.web.Option;

/** Reads how an aircraft carries fuel and oil. */
final class FluidArrangementForm {
  static final List<Option> SCALES =
      List.of(
          new Option("", "One scale for both sides"),
          new Option("left", "The scale marked left"),
          new Option("right", "The scale marked right"));

  private FluidArrangementForm() {}

  /** One tank a line, its capacity after a colon: "Main tanks: 148". */
  static FluidArrangement read(Form form, FuelUnit unit, List<Position> engines) {
    List<FluidArrangement.Tank> tanks =
        form.required("tanks", "Tanks").read(FluidArrangementForm::tanks);
    BigDecimal burn = form.optional("burn", "Planned burn").decimal(2);
    BigDecimal tolerance = form.required("tolerance", "Tolerance").decimal(1);
    SortedMap<String, FluidArrangement.Engine> oils = new TreeMap<>();
    for (Position engine : engines) {
      FluidArrangement.Engine oil = engine(form, engine);
      if (oil != null) {
        oils.put(engine.code(), oil);
      }
    }
    UUID revises = form.optional("revises", "Revision").uuid();
    return form.isBad() ? null : new FluidArrangement(revises, unit, burn, tolerance, tanks, oils);
  }

  private static FluidArrangement.Engine engine(Form form, Position engine) {
    String at = "-" + engine.code();
    String unit = form.optional("oil-unit" + at, "Oil unit, " + engine.label()).text(20);
    String scale =
        form.optional("oil-scale" + at, "Scale, " + engine.label()).choice("left", "right");
    BigDecimal limit =
        form.optional("oil-limit" + at, "Most used an hour, " + engine.label()).decimal(3);
    BigDecimal least = form.optional("oil-least" + at, "Least level, " + engine.label()).decimal(2);
    if (unit == null) {
      if (limit != null || least != null) {
        form.fail("oil-unit" + at, "Oil unit, " + engine.label() + " is needed with its figures");
      }
      return null;
    }
    return new FluidArrangement.Engine(unit, scale == null ? "" : scale, limit, least);
  }

  private static List<FluidArrangement.Tank> tanks(String typed) {
    List<FluidArrangement.Tank> tanks = new ArrayList<>();
    for (String line : typed.split("\\R")) {
      if (!line.isBlank()) {
        tanks.add(tank(line.strip()));
      }
    }
    if (tanks.size() > 8) {
      throw new IllegalArgumentException("must be at most 8 lines");
    }
    return tanks;
  }

  private static FluidArrangement.Tank tank(String line) {
    String[] sides = line.split("\\s*:\\s*", 2);
    String label = sides[0].strip();
    String code = FluidArrangement.code(label);
    boolean named = label.length() <= 40 && code.matches("[a-z][a-z0-9-]{0,39}");
    boolean sized = sides.length == 1 || sides[1].matches("\\d{1,6}(\\.\\d{1,2})?");
    if (!named || !sized) {
      throw new IllegalArgumentException(
          "must be one a line, a name and what they hold, like \"Main tanks: 148\"");
    }
    return new FluidArrangement.Tank(
        code, label, sides.length == 1 ? null : new BigDecimal(sides[1]));
  }

  static Form filled(FluidArrangement stated) {
    Form form =
        Form.blank()
            .with("tanks", lines(stated))
            .with("burn", shown(stated.burnPerHour()))
            .with("tolerance", stated.isStated() ? shown(stated.tolerancePercent()) : "")
            .with("revises", stated.revisionId());
    stated
        .engines()
        .forEach(
            (position, engine) ->
                form.with("oil-unit-" + position, engine.unit())
                    .with("oil-scale-" + position, engine.scale())
                    .with("oil-limit-" + position, shown(engine.limit()))
                    .with("oil-least-" + position, shown(engine.least())));
    return form;
  }

  static String lines(FluidArrangement stated) {
    List<String> lines = new ArrayList<>();
    stated
        .tanks()
        .forEach(
            tank ->
                lines.add(
                    tank.label() + (tank.capacity() == null ? "" : ": " + shown(tank.capacity()))));
    return String.join("\n", lines);
  }

  private static String shown(BigDecimal amount) {
    return amount == null ? "" : amount.stripTrailingZeros().toPlainString();
  }
}
