package trestle.fleet;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.reckoning.Counter;
import trestle.web.Refusal;

/** Makes the rows of a component from what was asked, and says what can't stand. */
final class ComponentRows {
  private ComponentRows() {}

  static List<Refusal.Reason> faults(Components.Registering asked, LocalDate today) {
    List<Refusal.Reason> faults = new ArrayList<>();
    names(faults, asked.partNumber(), asked.serial(), asked.description());
    if (asked.newOn() != null
        && asked.overhauledOn() != null
        && asked.overhauledOn().isBefore(asked.newOn())) {
      fault(faults, "overhauled-on", "Last overhauled on must not be before New on.");
    }
    if (asked.newOn() != null && asked.newOn().isAfter(today)) {
      fault(faults, "new-on", "New on must not be in the future.");
    }
    if (asked.overhauledOn() != null && asked.overhauledOn().isAfter(today)) {
      fault(faults, "overhauled-on", "Last overhauled on must not be in the future.");
    }
    asked
        .runs()
        .forEach(
            (counter, run) -> {
              if (run.sinceNew() != null
                  && run.sinceOverhaul() != null
                  && run.sinceOverhaul() > run.sinceNew()) {
                fault(
                    faults,
                    counter.name() + "-overhaul",
                    "Since overhaul must not be more than since new.");
              }
            });
    return faults;
  }

  static List<Refusal.Reason> faults(Components.Revising asked) {
    List<Refusal.Reason> faults = new ArrayList<>();
    names(faults, asked.partNumber(), asked.serial(), asked.description());
    return faults;
  }

  static ComponentRow component(Components.Registering asked) {
    ComponentRow row = new ComponentRow();
    row.componentId = row.id();
    row.kind = asked.kind().word();
    row.partNumber = asked.partNumber().strip();
    row.serial = asked.serial().strip();
    row.description = asked.description().strip();
    row.manufacturer = asked.manufacturer().strip();
    row.owner = asked.owner().isBlank() ? null : asked.owner().strip();
    row.fromForm(asked.formKey());
    return row;
  }

  static ComponentRow component(Components.Revising asked, ComponentSheet before) {
    ComponentRow row = new ComponentRow();
    row.componentId = before.id();
    row.kind = before.kind().word();
    row.partNumber = asked.partNumber().strip();
    row.serial = asked.serial().strip();
    row.description = asked.description().strip();
    row.manufacturer = asked.manufacturer().strip();
    row.owner = asked.owner().isBlank() ? null : asked.owner().strip();
    row.because(asked.reason());
    row.fromForm(asked.formKey());
    return row;
  }

  static ComponentOpening opening(
      UUID componentId, Counter counter, Components.Run run, Components.Registering asked) {
    ComponentOpening row = new ComponentOpening();
    row.componentId = componentId;
    row.counter = counter.name();
    row.sinceNew = run.sinceNew();
    row.sinceOverhaul = run.sinceOverhaul();
    row.newOn = asked.newOn();
    row.overhauledOn = asked.overhauledOn();
    return row;
  }

  static void names(
      List<Refusal.Reason> faults, String partNumber, String serial, String description) {
    length(faults, "part-number", "Part number", partNumber, 60);
    length(faults, "serial", "Serial number", serial, 60);
    length(faults, "description", "Description", description, 120);
  }

  static void length(
      List<Refusal.Reason> faults, String field, String label, String value, int most) {
    if (value.isBlank()) {
      fault(faults, field, label + " is needed.");
    } else if (value.strip().length() > most) {
      fault(faults, field, label + " must be at most " + most + " characters.");
    }
  }

  private static void fault(List<Refusal.Reason> faults, String field, String sentence) {
    faults.add(new Refusal.Reason(field, sentence));
  }
}
