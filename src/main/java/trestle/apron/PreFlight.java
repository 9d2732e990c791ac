package trestle.apron;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.LocalDate;
import java.util.List;
import trestle.fleet.AircraftSheet;
import trestle.formats.CanonicalJson;
import trestle.profiles.RuleProfile;
import trestle.signing.Signing;
import trestle.standing.Reason;
import trestle.standing.Standing;
import trestle.web.Total;

/**
 * What a pilot is shown before taking an aircraft, and signs to have seen.
 *
 * @param hoursTo how old the figures are
 * @param have how much may still be flown, and what is on board as it was left
 * @param next what falls due next, what bites first on top
 * @param defects what is open
 * @param inspection the latest inspection recorded as done, or null
 * @param release what the workshop certified last, or null
 * @param work the latest work of any kind recorded as done, or null
 * @param lately what was put right in the last weeks, the latest first
 * @param reminder the list to go by since maintenance; null where it has flown since
 */
record PreFlight(
    AircraftSheet sheet,
    LocalDate on,
    Standing standing,
    String hoursTo,
    List<Total> have,
    List<DueNote> next,
    List<OpenDefect> defects,
    LastWork inspection,
    LastWork release,
    LastWork work,
    List<LastWork> lately,
    CheckListSheet reminder,
    RuleProfile profile) {
  static final String FUEL = "Fuel as left";

  PreFlight {
    have = List.copyOf(have);
    next = List.copyOf(next);
    defects = List.copyOf(defects);
    lately = List.copyOf(lately);
  }

  public List<Reason> holding() {
    return standing.reasons().stream().filter(Reason::holds).toList();
  }

  public List<Reason> limiting() {
    return standing.reasons().stream().filter(reason -> !reason.holds()).toList();
  }

  /** The unit, and what was left. */
  public String fuelHint() {
    String unit = sheet.particulars().fuelUnit() + ", all tanks";
    return have.stream()
        .filter(total -> total.name().equals(FUEL))
        .findFirst()
        .map(fuel -> unit + "; " + fuel.value() + " were left")
        .orElse(unit);
  }

  /** Those of which the reasons do not tell everything already. */
  public List<OpenDefect> defectsBeside() {
    List<String> told = standing.reasons().stream().map(Reason::link).toList();
    return defects.stream()
        .filter(defect -> defect.saysMore() || !told.contains(defect.link()))
        .toList();
  }

  public List<String> reminded() {
    return reminder == null ? List.of() : reminder.lines();
  }

  /** Names exactly what was shown: a page that shows anything else has another. */
  public String seen() {
    return Signing.sha256(CanonicalJson.of(content()));
  }

  /** Everything shown, as it is signed. */
  ObjectNode content() {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("registration", sheet.registration());
    json.put("type", sheet.typeName());
    json.put("on", on.toString());
    json.put("standing", standing.word().word());
    json.put("hours-to", hoursTo);
    ArrayNode reasons = json.putArray("reasons");
    standing.reasons().forEach(reason -> reasons.add(reason.sentence()));
    ArrayNode figures = json.putArray("figures");
    have.forEach(total -> figures.add(total.name() + ": " + total.value() + " " + total.note()));
    ArrayNode due = json.putArray("due");
    next.forEach(note -> due.add(note.title() + ": " + note.left()));
    ArrayNode open = json.putArray("defects");
    defects.forEach(defect -> open.add(defect.sentence()));
    json.put("inspection", inspection == null ? "" : inspection.sentence());
    json.put("release", release == null ? "" : release.sentence());
    json.put("work", work == null ? "" : work.sentence());
    ArrayNode rectified = json.putArray("put-right-lately");
    lately.forEach(one -> rectified.add(one.sentence()));
    ArrayNode reminders = json.putArray("reminded");
    reminded().forEach(reminders::add);
    return json;
  }
}
