package trestle.workshop;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.web.Option;
import trestle.web.Refusal;

/**
 * Into whose logbook work on a line is entered: the airframe's, an engine's, a propeller's. A line
 * that names a component says it, and one engine or propeller leaves no choice; where there are
 * more, whoever signs is asked. An inspection goes into every book that it looked at.
 *
 * @param running of the aircraft
 * @param at when the work was done
 */
record Logbooks(UUID aircraftId, Totals.Running running, Instant at) {

  /** The airframe's, then those of its engines and propellers then. */
  List<Option> options() {
    List<Option> options = new ArrayList<>();
    options.add(new Option(aircraftId.toString(), "Airframe"));
    books().forEach(of -> options.add(new Option(of.componentId().toString(), of.name())));
    return options;
  }

  private List<Totals.Of> books() {
    return Totals.read(running.json(at)).stream()
        .filter(of -> of.componentId() != null && !of.kind().equals("other"))
        .toList();
  }

  private long count(String kind) {
    return books().stream().filter(of -> of.kind().equals(kind)).count();
  }

  /** Whether whoever signs is asked. */
  boolean areOffered(OrderLine line) {
    return !line.line().inspection() && (count("engine") > 1 || count("propeller") > 1);
  }

  /** Whether they must choose. */
  boolean mustBeChosen(WorkOrderSheet order, OrderLine line) {
    return areOffered(line) && !line.line().isTask() && preselected(order, line) == null;
  }

  /** What the records say by themselves; null where they leave it open. */
  UUID preselected(WorkOrderSheet order, OrderLine line) {
    UUID component = component(order, line.line());
    UUID named = component == null ? null : running.bookOf(component, at);
    if (named != null || line.line().isTask() || line.line().inspection()) {
      return named;
    }
    String kind =
        switch (line.line().area()) {
          case ENGINE, ENGINE_CONTROLS -> "engine";
          case PROPELLER -> "propeller";
          default -> "";
        };
    List<Totals.Of> ofKind = books().stream().filter(of -> of.kind().equals(kind)).toList();
    return switch (ofKind.size()) {
      case 0 -> aircraftId;
      case 1 -> ofKind.get(0).componentId();
      default -> null;
    };
  }

  /** The component that a line names, or the inspection of which it is a task. */
  private static UUID component(WorkOrderSheet order, LineSheet line) {
    return line.componentId() != null || line.parentLine() == null
        ? line.componentId()
        : order.line(line.parentLine()).map(parent -> parent.line().componentId()).orElse(null);
  }

  /**
   * The book for work that is signed.
   *
   * @param chosen by whoever signs, or null
   * @param several whether lines are signed together, without asking for each
   * @throws Refusal where it must be chosen, or is none of this aircraft
   */
  UUID of(WorkOrderSheet order, OrderLine line, UUID chosen, boolean several) {
    if (chosen != null) {
      boolean here = options().stream().anyMatch(one -> one.value().equals(chosen.toString()));
      if (!here) {
        throw new Refusal(
            "book", "Logbook must be of this aircraft, or of what was fitted to it then.");
      }
      return chosen;
    }
    if (!mustBeChosen(order, line)) {
      return preselected(order, line);
    }
    throw several
        ? new Refusal(
            "lines",
            "Line "
                + line.line().ordinal()
                + " is signed on its own page: it asks into whose logbook it goes.")
        : new Refusal("book", "Logbook must be chosen: there is more than one that it could be.");
  }

  /** "Engine 1, serial E-7", or "" where none is said. */
  String name(UUID book) {
    return options().stream()
        .filter(one -> book != null && one.value().equals(book.toString()))
        .map(Option::label)
        .findFirst()
        .orElse("");
  }
}
