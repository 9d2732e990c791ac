package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.web.Filing;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** What happens to components besides fitting and removal, and what their own meters show. */
@ApplicationScoped
public class ComponentEvents {
  @Inject AircraftRepository rows;
  @Inject Components components;
  @Inject SpotCheck check;
  @Inject ComponentLock lock;
  @Inject Filings filings;

  public record Overhaul(UUID componentId, Instant at, String reference, UUID formKey) {}

  /**
   * @param whom to or by whom
   * @param reference a release certificate, or a rebuilder's statement
   * @param restarts of a rebuild: time since new begins again, as the statement says
   */
  public record Happening(
      UUID componentId,
      ComponentEventKind kind,
      Instant at,
      String whom,
      String why,
      String reference,
      boolean restarts,
      UUID formKey) {}

  /**
   * What a component's own meter showed, in seconds or a count.
   *
   * @param replacedBy what a new meter showed that took its place then, or null
   */
  public record Metered(
      UUID componentId, Counter counter, long reading, Long replacedBy, Instant at, UUID formKey) {}

  /** Files an overhaul: time since overhaul restarts, time since new runs on. */
  @Filing
  public UUID overhaul(Viewer viewer, Overhaul asked) {
    filings.notLater(asked.at(), "on");
    lock.take(viewer, List.of(asked.componentId()), List.of());
    var before = rows.ofForm(ComponentOverhaul.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    check.refuseBeforeNew(
        viewer,
        components.history(viewer, asked.componentId(), View.EVERYTHING),
        asked.at(),
        "Overhauled");
    ComponentOverhaul row = new ComponentOverhaul();
    row.componentId = asked.componentId();
    row.reference = asked.reference() == null ? "" : asked.reference().strip();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    return row.id();
  }

  /**
   * Files what happened to a component.
   *
   * @return the event's id
   * @throws Refusal when that can't have happened to it then
   */
  @Filing
  public UUID file(Viewer viewer, Happening asked) {
    filings.notLater(asked.at(), "on");
    lock.take(viewer, List.of(asked.componentId()), List.of());
    var before = rows.ofForm(ComponentEvent.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    ComponentHistory component = components.history(viewer, asked.componentId(), View.EVERYTHING);
    Filings.refuse(faults(viewer, component, asked));
    check.refuseBeforeNew(viewer, component, asked.at(), asked.kind().label());
    ComponentEvent row = new ComponentEvent();
    row.componentId = asked.componentId();
    row.kind = asked.kind().word();
    row.whom = asked.whom().strip();
    row.why = asked.why().strip();
    row.reference = asked.reference().strip();
    row.restarts = asked.restarts();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    return row.id();
  }

  /** Files what a component's own meter showed. A meter does not run backwards. */
  @Filing
  public UUID read(Viewer viewer, Metered asked) {
    filings.notLater(asked.at(), "on");
    lock.take(viewer, List.of(asked.componentId()), List.of());
    var before = rows.ofForm(ComponentMeterReading.class, asked.formKey());
    if (before.isPresent()) {
      return before.get().id();
    }
    ComponentHistory component = components.history(viewer, asked.componentId(), View.EVERYTHING);
    refuseBackwards(component, asked);
    ComponentMeterReading row = new ComponentMeterReading();
    row.componentId = asked.componentId();
    row.counter = asked.counter().name();
    row.reading = asked.reading();
    row.replacedBy = asked.replacedBy();
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
    return row.id();
  }

  private List<Refusal.Reason> faults(Viewer viewer, ComponentHistory component, Happening asked) {
    List<Refusal.Reason> faults = new ArrayList<>();
    ComponentEventKind kind = asked.kind();
    need(faults, kind, "whom", "To whom", asked.whom());
    need(faults, kind, "why", "Why", asked.why());
    need(faults, kind, "reference", "Reference", asked.reference());
    if (kind == ComponentEventKind.REBUILT && component.sheet().kind() != PartKind.ENGINE) {
      fault(faults, "kind", "Only an engine is rebuilt: file an overhaul of another part.");
    }
    if (asked.restarts() && kind != ComponentEventKind.REBUILT) {
      fault(faults, "restarts", "Time since new begins again only with a rebuild.");
    }
    ComponentState state = component.stateAt(asked.at());
    if (state == ComponentState.RETIRED && kind != ComponentEventKind.INSPECTED) {
      fault(faults, "kind", "It was retired by then.");
    } else if (kind.onTheShelfOnly() && state == ComponentState.FITTED) {
      Placement there =
          component.placements().stream()
              .filter(each -> each.meets(asked.at(), null))
              .findFirst()
              .orElseThrow();
      fault(
          faults,
          "kind",
          "It was fitted to " + check.words(viewer, there) + " then: remove it first.");
    } else if (kind == ComponentEventKind.RETURNED && state != ComponentState.AWAY) {
      fault(faults, "kind", "It was not sent out: there is nothing to return from.");
    } else if (kind == ComponentEventKind.SERVICEABLE && state == ComponentState.AWAY) {
      fault(faults, "kind", "It was sent out: file its return.");
    } else if (kind == ComponentEventKind.SENT_OUT && state == ComponentState.AWAY) {
      fault(faults, "kind", "It was sent out already.");
    }
    boolean later =
        component.placements().stream().anyMatch(each -> each.from().isAfter(asked.at()));
    if (kind == ComponentEventKind.RETIRED && later) {
      fault(faults, "on", "It was fitted after that: it can't have been retired.");
    }
    return faults;
  }

  private static void need(
      List<Refusal.Reason> faults,
      ComponentEventKind kind,
      String field,
      String label,
      String value) {
    if (field.equals(kind.needs()) && value.isBlank()) {
      fault(faults, field, label + " is needed.");
    }
  }

  private static void fault(List<Refusal.Reason> faults, String field, String sentence) {
    faults.add(new Refusal.Reason(field, sentence));
  }

  /** Against the reading before, of the same meter, and the one after. */
  private static void refuseBackwards(ComponentHistory component, Metered asked) {
    ComponentHistory.MeterReading before = null;
    ComponentHistory.MeterReading after = null;
    for (ComponentHistory.MeterReading each : component.meterReadings()) {
      if (each.counter().equals(asked.counter())) {
        if (!each.at().isAfter(asked.at())) {
          before = each;
        } else if (after == null) {
          after = each;
        }
      }
    }
    if (before != null && before.goesOnFrom() > asked.reading()) {
      throw backwards(before, before.goesOnFrom());
    }
    long goesOnFrom = asked.replacedBy() == null ? asked.reading() : asked.replacedBy();
    if (after != null && after.reading() < goesOnFrom) {
      throw backwards(after, after.reading());
    }
  }

  private static Refusal backwards(ComponentHistory.MeterReading other, long showed) {
    return new Refusal(
        "reading",
        "Reading must fit between the others: it was "
            + other.counter().unit().show(showed)
            + " on "
            + other.on()
            + ", and a meter does not run backwards. Where it was replaced, file the last reading"
            + " of the old one with what the new one showed.");
  }
}
