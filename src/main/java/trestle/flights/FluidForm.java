package trestle.flights;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import trestle.fleet.FuelUnit;
import trestle.fleet.Position;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Shown;

/** Reads fuel and oil as found at the end of a flight, tank by tank and engine by engine. */
public final class FluidForm {
  public static final List<Option> UNITS =
      Option.of(Arrays.stream(FuelUnit.values()).map(FuelUnit::word).toArray(String[]::new));

  /** Where a person's word on what disagrees goes, and where it is asked for. */
  public static final String REMARK = "fluid-remark";

  private final Form form;
  private final FluidArrangement arrangement;
  private final FluidState state;
  private final List<Position> engines;

  /** Tanks as the form shows them. */
  public record TankField(String code, String label, String left) {}

  /** An engine as the form shows it. */
  public record EngineField(String code, String label, String hint) {}

  public FluidForm(
      Form form, FluidArrangement arrangement, FluidState state, List<Position> engines) {
    this.form = form;
    this.arrangement = arrangement;
    this.state = state;
    this.engines = engines;
  }

  /** Whether something was asked that does not agree, and where the answer goes. */
  public boolean asks() {
    return form.isBad(REMARK) || !form.value(REMARK).isEmpty();
  }

  public String unit() {
    return arrangement.unit().word();
  }

  public List<Option> units() {
    return UNITS;
  }

  public List<TankField> tanks() {
    List<TankField> fields = new ArrayList<>();
    for (FluidState.Left left : state.tanks()) {
      fields.add(
          new TankField(
              left.code(),
              left.label(),
              left.amount() == null
                  ? "not read before"
                  : Shown.quantity(left.amount()) + " " + left.unit() + " left last time"));
    }
    return fields;
  }

  public List<EngineField> engines() {
    List<EngineField> fields = new ArrayList<>();
    for (Position engine : engines) {
      FluidArrangement.Engine oil = arrangement.engines().get(engine.code());
      fields.add(
          new EngineField(
              engine.code(),
              engine.label(),
              oil == null ? "in the unit of its dipstick" : oil.words()));
    }
    return fields;
  }

  /** What was found; what is wrong is noted in the form, and then it must not be used. */
  public FluidDraft read() {
    SortedMap<String, BigDecimal> added = new TreeMap<>();
    SortedMap<String, BigDecimal> gauge = new TreeMap<>();
    SortedMap<String, BigDecimal> dip = new TreeMap<>();
    for (FluidArrangement.Tank tank : arrangement.tanks()) {
      read(added, "fuel-added-", tank.code(), "Put in " + tank.label());
      read(gauge, "fuel-gauge-", tank.code(), tank.label() + " by gauge");
      read(dip, "fuel-dip-", tank.code(), tank.label() + " by dip");
    }
    String addedIn =
        form.optional("fuel-added-in", "Unit of fuel put in")
            .choice(UNITS.stream().map(Option::value).toList());
    BigDecimal density = form.optional("fuel-density", "Density").decimal(3);
    SortedMap<String, BigDecimal> oilBefore = new TreeMap<>();
    SortedMap<String, BigDecimal> oilAdded = new TreeMap<>();
    Set<String> changed = new TreeSet<>();
    for (Position engine : engines) {
      read(oilBefore, "oil-level-", engine.code(), "Oil level, " + engine.label());
      read(oilAdded, "oil-", engine.code(), "Oil added, " + engine.label());
      if (form.checked("oil-changed-" + engine.code())) {
        changed.add(engine.code());
      }
    }
    String remark = form.optional(REMARK, "Remark on fuel and oil").lines(1000);
    FluidDraft draft =
        new FluidDraft(
            addedIn == null ? arrangement.unit() : FuelUnit.parse(addedIn),
            density,
            added,
            gauge,
            dip,
            oilBefore,
            oilAdded,
            changed,
            remark);
    draft.faults(arrangement).stream()
        .filter(fault -> !form.isBad(fault.field()))
        .forEach(fault -> form.fail(fault.field(), fault.sentence()));
    return draft;
  }

  /** What was put into all tanks, in the aircraft's unit to a hundredth; null when nothing was. */
  BigDecimal added(FluidDraft draft) {
    if (draft.added().isEmpty() || form.isBad()) {
      return null;
    }
    return FuelLeft.added(arrangement, draft).setScale(2, RoundingMode.HALF_UP);
  }

  /** What is in all tanks together; null while one was not read. */
  BigDecimal left(FluidDraft draft) {
    return FuelLeft.total(arrangement, draft);
  }

  /**
   * Asks about what disagrees until the person has said a word on it.
   *
   * @param defect whether a defect is reported with it, which answers as well
   */
  public void ask(List<FuelAndOil.Question> questions, FluidDraft draft, boolean defect) {
    if (!defect && draft.remark().isEmpty() && !questions.isEmpty()) {
      form.fail(
          REMARK,
          String.join(" ", questions.stream().map(FuelAndOil.Question::sentence).toList())
              + " Read again, say what you know of it here, or report a defect.");
    }
  }

  private void read(SortedMap<String, BigDecimal> into, String field, String code, String label) {
    BigDecimal amount = form.optional(field + code, label).decimal(2);
    if (amount != null) {
      into.put(code, amount);
    }
  }

  /** Fills a form with what a reading says, for a correction. */
  static Form filled(FluidDraft found) {
    Form form =
        Form.blank()
            .with("fuel-added-in", found.addedIn().word())
            .with("fuel-density", found.density())
            .with(REMARK, found.remark());
    fill(form, "fuel-added-", found.added());
    fill(form, "fuel-gauge-", found.gauge());
    fill(form, "fuel-dip-", found.dip());
    fill(form, "oil-level-", found.oilBefore());
    fill(form, "oil-", found.oilAdded());
    found.oilChanged().forEach(engine -> form.with("oil-changed-" + engine, "yes"));
    return form;
  }

  private static void fill(Form form, String field, SortedMap<String, BigDecimal> amounts) {
    amounts.forEach((code, amount) -> form.with(field + code, amount.toPlainString()));
  }
}
