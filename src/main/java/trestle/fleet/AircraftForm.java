package trestle.fleet;

import java.util.List;
import java.util.Locale;
import trestle.reckoning.HoursStyle;
import trestle.web.Form;
import trestle.web.Option;

/** Reads an aircraft's particulars, and writes them into a form. */
final class AircraftForm {
  static final List<Option> BASIS =
      List.of(
          new Option(
              "flight-times", "Take-off and landing times", "take-off to landing, each flight"),
          new Option("meter", "A meter", "its reading after each flight less before"));
  static final List<Option> ROUNDING =
      List.of(
          new Option("exact", "Exact, to the minute"),
          new Option("tenths", "Rounded to tenths, flight by flight"));
  static final List<Option> SHOWN =
      List.of(
          new Option("tenths", "Tenths, like 12.5"),
          new Option("hundredths", "Hundredths, like 12.52"),
          new Option("minutes", "Hours and minutes, like 12:31"));

  static final List<Option> FUEL =
      Option.of(
          java.util.Arrays.stream(FuelUnit.values()).map(FuelUnit::word).toArray(String[]::new));

  private AircraftForm() {}

  /** The particulars as typed, or null with the reasons noted in the form. */
  static Particulars read(Form form) {
    String registration = form.required("registration", "Registration").text(10);
    String type = form.required("type", "Type").text(80);
    String manufacturer = form.optional("manufacturer", "Manufacturer").text(120);
    String serial = form.required("serial", "Serial number").text(60);
    Integer built = form.optional("built", "Year built").count(2200);
    HoursBasis basis =
        form.required("basis", "Time in service is taken from").choice(HoursBasis.class);
    String meter = form.optional("meter", "Meter").text(60);
    Rounding rounding = form.required("rounding", "Each flight is taken").choice(Rounding.class);
    HoursStyle shown = form.required("shown", "Hours are shown in").choice(HoursStyle.class);
    String fuel =
        form.required("fuel-unit", "Unit of fuel")
            .choice(FUEL.stream().map(Option::value).toList());
    if (form.isBad()) {
      return null;
    }
    return new Particulars(
        registration,
        type,
        orBlank(manufacturer),
        serial,
        built,
        basis,
        orBlank(meter),
        rounding,
        shown,
        orBlank(fuel),
        form.checked("retired"));
  }

  static Form filled(Particulars stated) {
    Form form =
        Form.blank()
            .with("registration", stated.registration())
            .with("type", stated.typeName())
            .with("manufacturer", stated.manufacturer())
            .with("serial", stated.serial())
            .with("built", stated.builtYear())
            .with("basis", stated.hoursBasis().word())
            .with("meter", stated.meterName())
            .with("rounding", stated.rounding().word())
            .with("shown", stated.shownAs().name().toLowerCase(Locale.ROOT))
            .with("fuel-unit", stated.fuelUnit());
    return stated.retired() ? form.with("retired", "yes") : form;
  }

  static Form blank() {
    return Form.blank()
        .with("basis", "flight-times")
        .with("rounding", "exact")
        .with("shown", "tenths")
        .with("fuel-unit", "litres")
        .with("engines", "single");
  }

  private static String orBlank(String text) {
    return text == null ? "" : text;
  }
}
