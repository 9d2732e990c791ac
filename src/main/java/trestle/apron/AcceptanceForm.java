package trestle.apron;

import java.math.BigDecimal;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import trestle.fleet.PartKind;
import trestle.fleet.Position;
import trestle.people.Members.LicenceLine;
import trestle.web.Form;
import trestle.web.Option;

/** What a pilot fills in and signs on the pre-flight page. */
public final class AcceptanceForm {
  private final Form form;
  private final List<Position> engines;
  private final List<LicenceLine> licences;

  AcceptanceForm(Form form, List<Position> positions, List<LicenceLine> licences) {
    this.form = form;
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
      for (Position engine : engines) {
        BigDecimal level =
            form.required("oil-" + engine.code(), "Oil on board, " + engine.label()).decimal(2);
        if (level != null) {
          oil.put(engine.code(), level);
        }
      }
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
}
