package trestle.fleet;

import java.time.Instant;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** Reads a new component and what it has run. */
final class ComponentForm {
  static final List<Option> KINDS = Option.of("engine", "propeller", "other");
  static final List<Option> OVERHAULED =
      List.of(
          new Option("never", "Never", "time since overhaul counts from new"),
          new Option("yes", "Yes", "give what it has run since"),
          new Option("unknown", "Not known"));
  private static final Counter CYCLES = new Counter("cycles");
  private static final String NOT_KNOWN = "not known";

  private ComponentForm() {}

  static Components.Registering read(Form form, Viewer viewer, Instant now) {
    PartKind kind = form.required("kind", "Kind").choice(PartKind.class);
    String description = form.required("description", "Description").text(120);
    String partNumber = form.required("part-number", "Part number").text(60);
    String serial = form.required("serial", "Serial number").text(60);
    String manufacturer = form.optional("manufacturer", "Manufacturer").text(120);
    String owner = form.optional("owner", "Owner").text(120);
    Instant at = StatedMoment.of(form, "As at", viewer, now);
    LocalDate today = viewer.dateOf(now);
    LocalDate newOn = form.optional("new-on", "New on").dateUpTo(today);
    String overhauled =
        form.required("overhauled", "Overhauled before").choice("never", "yes", "unknown");
    LocalDate overhauledOn =
        "yes".equals(overhauled)
            ? form.optional("overhauled-on", "Last overhauled on").dateUpTo(today)
            : null;
    Map<Counter, Components.Run> runs = runs(form, overhauled);
    if (form.isBad()) {
      return null;
    }
    return new Components.Registering(
        kind,
        partNumber,
        serial,
        description,
        manufacturer == null ? "" : manufacturer,
        at,
        runs,
        newOn,
        "never".equals(overhauled) ? newOn : overhauledOn,
        owner == null ? "" : owner,
        form.key());
  }

  /** Hours always, known or not; landings and cycles when one of their fields is filled in. */
  private static Map<Counter, Components.Run> runs(Form form, String overhauled) {
    Map<Counter, Components.Run> runs = new LinkedHashMap<>();
    Long hoursNew = seconds(form.optional("hours-new", "Hours since new").hours());
    Long hoursOverhaul = seconds(form.optional("hours-overhaul", "Hours since overhaul").hours());
    runs.put(Counter.HOURS, run(hoursNew, hoursOverhaul, overhauled));
    boolean since = hoursOverhaul != null;
    for (Counter counter : List.of(Counter.LANDINGS, CYCLES)) {
      String fresh = counter.name() + "-new";
      String over = counter.name() + "-overhaul";
      String label = CounterWords.of(counter);
      Long sinceNew = count(form, fresh, label + " since new");
      Long sinceOverhaul = count(form, over, label + " since overhaul");
      if (!form.value(fresh).isBlank() || !form.value(over).isBlank()) {
        runs.put(counter, run(sinceNew, sinceOverhaul, overhauled));
      }
      since |= sinceOverhaul != null;
    }
    if (!"yes".equals(overhauled) && since) {
      form.fail("overhauled", "Overhauled before must be Yes when it has run since overhaul.");
    }
    return runs;
  }

  /** Counted from now on, though what it stands at is not known. */
  private static Long count(Form form, String name, String label) {
    return NOT_KNOWN.equalsIgnoreCase(form.value(name).strip())
        ? null
        : form.optional(name, label).count();
  }

  private static Components.Run run(Long sinceNew, Long sinceOverhaul, String overhauled) {
    return new Components.Run(sinceNew, "never".equals(overhauled) ? sinceNew : sinceOverhaul);
  }

  private static Long seconds(Hours hours) {
    return hours == null ? null : hours.seconds();
  }
}
