package trestle.fleet;

import java.math.BigDecimal;
import java.time.Instant;
import trestle.fleet.Configurations.NewEquipment;
import trestle.fleet.Configurations.NewModification;
import trestle.fleet.Configurations.NewWeight;
import trestle.web.Form;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Reads the forms of an aircraft's configuration, and fills them with what holds. */
final class ConfigurationForm {
  private static final int DIGITS = 3;

  private ConfigurationForm() {}

  static NewModification modification(Form form, Viewer viewer, Instant now) {
    var id = form.optional("modification", "Modification").uuid();
    String code = form.required("code", "Code").read(Configuration::code);
    String title = form.required("title", "What it is").text(200);
    String kind = form.required("kind", "Kind").choice("modification", "repair");
    String approval = form.optional("approval", "Approval").text(200);
    String reference = form.optional("form-reference", "Form").text(200);
    String systems = form.optional("systems", "Systems").text(200);
    String remarks = form.optional("remarks", "Remarks").lines(2000);
    Instant at = StatedMoment.of(form, "Date", viewer, now);
    String reason = id == null ? null : form.required("reason", "Reason").text(500);
    return new NewModification(
        id,
        code,
        title,
        "repair".equals(kind),
        form.checked("major"),
        orEmpty(approval),
        orEmpty(reference),
        orEmpty(systems),
        orEmpty(remarks),
        form.checked("embodied"),
        at,
        reason,
        form.key());
  }

  static NewEquipment equipment(Form form, Viewer viewer, Instant now) {
    var id = form.optional("equipment", "Equipment").uuid();
    String name = form.required("name", "Equipment").text(120);
    String state = form.required("state", "State").choice("fitted", "removed", "inoperative");
    String placard = form.optional("placard", "Placard").text(200);
    String remarks = form.optional("remarks", "Remarks").lines(2000);
    Instant at = StatedMoment.of(form, "Date", viewer, now);
    return new NewEquipment(id, name, state, orEmpty(placard), orEmpty(remarks), at, form.key());
  }

  static NewWeight weight(Form form, Viewer viewer, Instant now) {
    String kind = form.required("kind", "Kind").choice("weighing", "change");
    String what = form.required("what", "What").text(200);
    BigDecimal weight = form.required("weight", "Weight").read(ConfigurationForm::signed);
    String weightUnit = form.required("weight-unit", "Weight in").choice("kg", "lb");
    BigDecimal arm = form.required("arm", "Arm").read(ConfigurationForm::signed);
    String armUnit = form.required("arm-unit", "Arm in").choice("mm", "cm", "in");
    String reference = form.optional("reference", "Reference").text(200);
    Instant at = StatedMoment.of(form, "Date", viewer, now);
    var corrects = form.optional("corrects", "Entry").uuid();
    String reason = corrects == null ? null : form.required("reason", "Reason").text(500);
    if (weight != null
        && (weight.signum() == 0 || "weighing".equals(kind) && weight.signum() < 0)) {
      form.fail(
          "weight",
          "Weight must be " + ("weighing".equals(kind) ? "more than" : "other than") + " 0.");
    }
    return new NewWeight(
        "weighing".equals(kind),
        what,
        weight,
        arm,
        weightUnit,
        armUnit,
        orEmpty(reference),
        at,
        corrects,
        corrects != null && form.checked("void"),
        reason,
        form.key());
  }

  static void fill(Form form, Configuration.Mod mod) {
    form.with("modification", mod.id())
        .with("code", mod.code())
        .with("title", mod.title())
        .with("kind", mod.repair() ? "repair" : "modification")
        .with("major", mod.major() ? "yes" : null)
        .with("approval", mod.approval())
        .with("form-reference", mod.formReference())
        .with("systems", mod.systems())
        .with("remarks", mod.remarks())
        .with("embodied", mod.embodied() ? "yes" : null);
  }

  static void fill(Form form, Configuration.Item item) {
    form.with("equipment", item.id())
        .with("name", item.name())
        .with("state", item.state())
        .with("placard", item.placard())
        .with("remarks", item.remarks());
  }

  static void fill(Form form, EmptyWeight.Entry entry) {
    form.with("corrects", entry.id())
        .with("kind", entry.weighing() ? "weighing" : "change")
        .with("what", entry.what())
        .with("weight", entry.weight().stripTrailingZeros().toPlainString())
        .with("weight-unit", entry.weightUnit())
        .with("arm", entry.arm().stripTrailingZeros().toPlainString())
        .with("arm-unit", entry.armUnit())
        .with("reference", entry.reference())
        .with("on", Shown.typed(entry.on()));
  }

  /** Like 12.5, −3 or 1,204.75. */
  private static BigDecimal signed(String typed) {
    String plain = typed.replace('\u2212', '-').replace(",", "").strip();
    if (!plain.matches("[+-]?\\d{1,6}(\\.\\d{1," + DIGITS + "})?")) {
      throw new IllegalArgumentException(
          "must be a number such as 812.5 or −3, with at most three digits after the point");
    }
    return new BigDecimal(plain);
  }

  private static String orEmpty(String text) {
    return text == null ? "" : text;
  }
}
