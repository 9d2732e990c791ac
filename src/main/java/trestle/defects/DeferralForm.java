package trestle.defects;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.people.Members.LicenceLine;
import trestle.profiles.RuleProfile.Route;
import trestle.reckoning.DeferralClock.Category;
import trestle.reckoning.Hours;
import trestle.standing.DueItem;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/**
 * What a person fills in to defer a defect; the fields are those of one route.
 *
 * @param old copied from old papers: who deferred it stands there, and nobody signs
 * @param inspections those that a deferral without a list may be due with
 * @param licences the viewer's own
 */
record DeferralForm(
    Form form,
    Route route,
    boolean old,
    Viewer viewer,
    Instant now,
    List<DueItem> inspections,
    List<LicenceLine> licences) {

  /** The page filled in with what a deferral says. */
  static Form of(DeferralSheet deferral) {
    NewDeferral.Conditions conditions = deferral.conditions();
    Form form =
        Form.blank()
            .with("route", deferral.route().word())
            .with("by", deferral.role())
            .with("licence", deferral.licenceNumber())
            .with("list-reference", deferral.listReference())
            .with("item", deferral.item())
            .with("category", deferral.category())
            .with("unit", deferral.unit() == null ? null : deferral.unit().word())
            .with("amount", amount(deferral))
            .with("limitation", conditions.limitation())
            .with("forbids", conditions.forbids())
            .with("placard", conditions.placard())
            .with("placard-place", conditions.placardPlace())
            .with("m-procedure", conditions.maintenanceProcedure())
            .with("o-procedure", conditions.operationsProcedure())
            .with("transcribed-from", deferral.transcribedFrom())
            .with("signed-by", deferral.signedBy())
            .with("on", deferral.on());
    if (deferral.unlisted() != null) {
      form.with("made-safe", deferral.unlisted().madeSafe())
          .with("not-required", deferral.unlisted().notRequired())
          .with("no-hazard", deferral.unlisted().noHazard())
          .with("no-hazard-by", deferral.unlisted().noHazardBy())
          .with("inspection", key(deferral.withRequirementId(), deferral.withComponentId()));
    }
    return form;
  }

  private static String amount(DeferralSheet deferral) {
    if (deferral.amount() == null) {
      return null;
    }
    return deferral.unit() == DeferralUnit.HOURS
        ? new Hours(deferral.amount()).toString()
        : deferral.amount().toString();
  }

  /** What was filled in, or null; the form then has the sentences. */
  NewDeferral read(UUID defectEntryId) {
    NewDeferral.Listed listed = route == Route.MINIMUM_EQUIPMENT_LIST ? listed() : null;
    NewDeferral.Unlisted unlisted = route == Route.NO_LIST ? unlisted() : null;
    NewDeferral.Conditions conditions =
        new NewDeferral.Conditions(
            text("limitation", "Limitation", 300),
            text("forbids", "What it forbids", 60),
            text("placard", "Placard", 200),
            text("placard-place", "Its place", 120),
            text("m-procedure", "(M) procedure", 200),
            text("o-procedure", "(O) procedure", 200));
    String by =
        form.required("by", old ? "Deferred by" : "You defer")
            .choice(bys().stream().map(Option::value).toList());
    String licence =
        old
            ? form.optional("licence", "Licence on the papers").text(60)
            : form.optional("licence", "Licence")
                .choice(licences.stream().map(LicenceLine::number).toList());
    Instant at = StatedMoment.of(form, "Deferred on", viewer, now);
    if (form.isBad()) {
      return null;
    }
    return new NewDeferral(
        defectEntryId,
        at,
        Role.parse(by),
        licence == null ? "" : licence,
        listed,
        unlisted,
        conditions);
  }

  /** The papers it is copied from, or null; the form then has the sentences. */
  OldPaper paper() {
    String from = form.required("transcribed-from", "Copied from").text(200);
    String signedBy = form.optional("signed-by", "Signed by").text(120);
    return form.isBad() ? null : new OldPaper(from, signedBy);
  }

  private NewDeferral.Listed listed() {
    String reference = form.required("list-reference", "List").text(120);
    String item = form.required("item", "Item").text(60);
    String category = form.required("category", "Category").choice("A", "B", "C", "D");
    String unit =
        form.optional("unit", "Counted in").choice(units().stream().map(Option::value).toList());
    boolean stated = "A".equals(category) || !form.value("amount").isBlank();
    DeferralUnit in = unit == null || !stated ? null : DeferralUnit.parse(unit);
    Long amount = amount(in);
    return new NewDeferral.Listed(
        reference, item, category == null ? null : Category.valueOf(category), in, amount);
  }

  private Long amount(DeferralUnit in) {
    if (in == DeferralUnit.HOURS) {
      Hours hours = form.optional("amount", "Interval").hours();
      return hours == null ? null : hours.seconds();
    }
    return form.optional("amount", "Interval").count();
  }

  private NewDeferral.Unlisted unlisted() {
    String madeSafe = form.required("made-safe", "Made safe").choice("deactivated", "removed");
    String notRequired = form.required("not-required", "Why it is not required").text(300);
    String noHazard = form.required("no-hazard", "Why it is no hazard").text(300);
    String by = form.required("no-hazard-by", "Who decided that").text(120);
    String inspection =
        form.required("inspection", "Inspection")
            .choice(inspectionOptions().stream().map(Option::value).toList());
    if (inspection == null) {
      return null;
    }
    String[] ids = inspection.split("_");
    return new NewDeferral.Unlisted(
        madeSafe,
        notRequired,
        noHazard,
        by,
        UUID.fromString(ids[0]),
        ids.length > 1 ? UUID.fromString(ids[1]) : null);
  }

  private String text(String name, String label, int most) {
    String text = form.optional(name, label).text(most);
    return text == null ? "" : text;
  }

  public List<Option> inspectionOptions() {
    return inspections.stream()
        .map(
            item ->
                new Option(
                    key(
                        item.requirementId(),
                        item.subject().isAircraft() ? null : item.subject().id()),
                    item.title()
                        + (item.subject().isAircraft() ? "" : ", " + item.subject().words())
                        + (item.reckoning().projectedOn() == null
                            ? ""
                            : ", expected " + Shown.date(item.reckoning().projectedOn()))))
        .toList();
  }

  private static String key(UUID requirement, UUID component) {
    return requirement + (component == null ? "" : "_" + component);
  }

  public List<Option> categories() {
    return List.of(
        new Option("A", "A, as its item states"),
        new Option("B", "B, 3 days"),
        new Option("C", "C, 10 days"),
        new Option("D", "D, 120 days"));
  }

  public List<Option> units() {
    return Stream.of(DeferralUnit.values())
        .map(unit -> new Option(unit.word(), unit.shown()))
        .toList();
  }

  public List<Option> madeSafes() {
    return List.of(
        new Option("deactivated", "Deactivated"),
        new Option("removed", "Removed, its control placarded, the removal recorded"));
  }

  public List<Option> bys() {
    if (old) {
      return List.of(new Option("engineer", "An engineer"), new Option("pilot", "A pilot"));
    }
    List<Option> bys = new ArrayList<>();
    if (viewer.is(Role.ENGINEER)) {
      bys.add(new Option("engineer", "As an engineer"));
    }
    if (viewer.is(Role.PILOT)) {
      bys.add(new Option("pilot", "As a pilot"));
    }
    return bys;
  }

  public List<Option> licenceOptions() {
    return licences.stream()
        .map(
            one ->
                new Option(
                    one.number(),
                    one.kind()
                        + " "
                        + one.number()
                        + (one.expiresOn() == null
                            ? ""
                            : ", until " + Shown.date(one.expiresOn()))))
        .toList();
  }
}
