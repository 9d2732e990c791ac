package trestle.apron;

import java.math.BigDecimal;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import trestle.fleet.PartKind;
import trestle.fleet.Position;
import trestle.flights.FluidArrangement;
import trestle.people.Members.LicenceLine;
import trestle.web.Field;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Shown;

/** What a pilot fills in and signs on the pre-flight page. */
public final class AcceptanceForm {
  private final Form form;
  private final List<Position> engines;
  private final FluidArrangement fluids;
  private final List<LicenceLine> licences;

  AcceptanceForm(
      Form form, List<Position> positions, FluidArrangement fluids, List<LicenceLine> licences) {
    this.form = form;
    this.fluids = fluids;
    this.engines =
        positions.stream().filter(position -> position.kind() == PartKind.ENGINE).toList();
    this.licences = licences;
  }

  /** An empty page; the one licence there is stands in it. */
  static Form blank(String seen, List<LicenceLine> licences) {
    Form form = Form.blank().with("seen", seen);
    return licences.size() == 1 ? form.with("licence", licences.get(0).number()) : form;
  }

  public Form form() {
    return form;
  }

  public List<Position> engines() {
    return engines;
  }

  /** "quarts, read the LEFT scale", where somebody has stated how its oil is read. */
  public String hint(Position engine) {
    FluidArrangement.Engine stated = fluids.engines().get(engine.code());
    return stated == null ? "as its dipstick reads" : stated.words();
  }

  public List<Option> licences() {
    return licences.stream()
        .map(licence -> new Option(licence.number(), licence.kind() + " " + licence.number()))
        .toList();
  }

  /** The draft; only to be used where the form is well. */
  AcceptanceDraft read() {
    boolean accepts = form.checked("accepts");
    boolean inspected = form.checked("inspected");
    BigDecimal fuel = null;
    SortedMap<String, BigDecimal> oil = new TreeMap<>();
    if (accepts) {
      fuel = form.required("fuel", "Fuel on board").decimal(2);
      engines.forEach(engine -> readOil(engine, oil));
    }
    String remarks = form.optional("remarks", "Remarks").lines(1_000);
    if (!accepts && !inspected) {
      form.fail("inspected", "Tick what you sign: the inspection, the acceptance, or both");
    }
    String licence =
        form.optional("licence", "Licence")
            .choice(licences.stream().map(LicenceLine::number).toList());
    if (form.value("password").isEmpty() && !form.resumed()) {
      form.fail("password", "Password must not be blank: it is how you sign");
    }
    return new AcceptanceDraft(
        inspected,
        accepts,
        fuel,
        oil,
        remarks == null ? "" : remarks,
        licence == null ? "" : licence,
        form.value("seen"),
        form.key());
  }

  private void readOil(Position engine, SortedMap<String, BigDecimal> oil) {
    Field field = form.required("oil-" + engine.code(), "Oil on board, " + engine.label());
    BigDecimal level = field.decimal(2);
    FluidArrangement.Engine stated = fluids.engines().get(engine.code());
    if (level == null) {
      return;
    }
    if (stated != null && stated.least() != null && level.compareTo(stated.least()) < 0) {
      field.fail(
          "must be at least "
              + Shown.quantity(stated.least())
              + " "
              + stated.unit()
              + ": below that the engine must not run");
    }
    oil.put(engine.code(), level);
  }
}
