package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Stream;
import trestle.fleet.Fitments.Correcting;
import trestle.ledger.Filed;
import trestle.ledger.View;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Puts the moment of something filed of a component right, or says that there was none. */
@ApplicationScoped
public class ComponentCorrections {
  @Inject AircraftRepository rows;
  @Inject Components components;
  @Inject SpotCheck check;
  @Inject ComponentLock lock;
  @Inject Filings filings;

  @Filing
  public void correctFitment(Viewer viewer, Correcting asked) {
    Fitment original = original(Fitment.class, asked, "fitment");
    take(viewer, original);
    filings.correctable(Fitment.class, original.id(), asked.reason());
    Placement placement =
        placement(viewer, original.componentId, each -> each.fitmentId().equals(original.id()));
    if (asked.voids() && !placement.isOpen()) {
      throw new Refusal("", "Void its removal first.");
    }
    if (!asked.voids()) {
      if (placement.to() != null && asked.at().isAfter(placement.to())) {
        throw new Refusal("on", "Fitted must not be after it was removed.");
      }
      refuseBeforeNew(viewer, original.componentId, asked.at(), "Fitted");
      check.refuseMeeting(viewer, placement, asked.at(), placement.to());
    }
    Fitment row = Fitment.like(original);
    row.isVoid = asked.voids();
    file(viewer, row, asked);
  }

  @Filing
  public void correctRemoval(Viewer viewer, Correcting asked) {
    Removal original = original(Removal.class, asked, "removal");
    Fitment fitment =
        rows.row(Fitment.class, original.fitmentId)
            .orElseThrow(() -> new NotHere("There is no such fitment here."));
    take(viewer, fitment);
    filings.correctable(Removal.class, original.id(), asked.reason());
    Placement placement =
        placement(viewer, fitment.componentId, each -> original.id().equals(each.removalId()));
    if (asked.at().isBefore(placement.from())) {
      throw new Refusal(
          "on", "Removed must not be before it was fitted, " + placement.fromOn() + ".");
    }
    check.refuseMeeting(viewer, placement, placement.from(), asked.voids() ? null : asked.at());
    Removal row = new Removal();
    row.fitmentId = original.fitmentId;
    row.fromAircraft = fitment.aircraftId;
    row.why = original.why;
    row.scheduled = original.scheduled;
    row.released = original.released;
    row.isVoid = asked.voids();
    file(viewer, row, asked);
  }

  @Filing
  public void correctOverhaul(Viewer viewer, Correcting asked) {
    ComponentOverhaul original = original(ComponentOverhaul.class, asked, "overhaul");
    lock.take(viewer, List.of(original.componentId), List.of());
    filings.correctable(ComponentOverhaul.class, original.id(), asked.reason());
    refuseBeforeNew(viewer, original.componentId, asked.at(), "Overhauled");
    ComponentOverhaul row = new ComponentOverhaul();
    row.componentId = original.componentId;
    row.reference = original.reference;
    row.isVoid = asked.voids();
    file(viewer, row, asked);
  }

  @Filing
  public void correctEvent(Viewer viewer, Correcting asked) {
    ComponentEvent original = original(ComponentEvent.class, asked, "event");
    lock.take(viewer, List.of(original.componentId), List.of());
    filings.correctable(ComponentEvent.class, original.id(), asked.reason());
    refuseBeforeNew(viewer, original.componentId, asked.at(), "Date");
    ComponentEvent row = new ComponentEvent();
    row.componentId = original.componentId;
    row.kind = original.kind;
    row.whom = original.whom;
    row.why = original.why;
    row.reference = original.reference;
    row.restarts = original.restarts;
    row.isVoid = asked.voids();
    file(viewer, row, asked);
  }

  @Filing
  public void correctMeterReading(Viewer viewer, Correcting asked) {
    ComponentMeterReading original = original(ComponentMeterReading.class, asked, "reading");
    lock.take(viewer, List.of(original.componentId), List.of());
    filings.correctable(ComponentMeterReading.class, original.id(), asked.reason());
    ComponentMeterReading row = new ComponentMeterReading();
    row.componentId = original.componentId;
    row.counter = original.counter;
    row.reading = original.reading;
    row.replacedBy = original.replacedBy;
    row.isVoid = asked.voids();
    refuseBackwards(viewer, original, asked);
    file(viewer, row, asked);
  }

  /** What is left, or moved, must still be a meter that only runs forwards. */
  private void refuseBackwards(Viewer viewer, ComponentMeterReading original, Correcting asked) {
    List<ComponentHistory.MeterReading> all = new ArrayList<>();
    for (ComponentHistory.MeterReading one :
        components.history(viewer, original.componentId, View.EVERYTHING).meterReadings()) {
      boolean itself = one.id().equals(original.id());
      if (one.counter().name().equals(original.counter) && !(itself && asked.voids())) {
        all.add(itself ? one.movedTo(asked.at()) : one);
      }
    }
    all.sort(Comparator.comparing(ComponentHistory.MeterReading::at));
    for (int i = 1; i < all.size(); i++) {
      if (all.get(i).reading() < all.get(i - 1).goesOnFrom()) {
        throw new Refusal(
            "",
            "The readings would run backwards: put right first what was read on "
                + all.get(i).on()
                + ", or on "
                + all.get(i - 1).on()
                + ".");
      }
    }
  }

  /**
   * States anew what a component had run when its records began.
   *
   * @param sinceNew seconds or a count, null when not known
   * @param sinceOverhaul likewise
   */
  @Filing
  public void correctOpening(Viewer viewer, Correcting asked, Long sinceNew, Long sinceOverhaul) {
    ComponentOpening original = original(ComponentOpening.class, asked, "opening");
    lock.take(viewer, List.of(original.componentId), List.of());
    filings.correctable(ComponentOpening.class, original.id(), asked.reason());
    if (sinceNew != null && sinceOverhaul != null && sinceOverhaul > sinceNew) {
      throw new Refusal("since-overhaul", "Since overhaul must not be more than since new.");
    }
    ComponentOpening row = new ComponentOpening();
    row.componentId = original.componentId;
    row.counter = original.counter;
    row.sinceNew = sinceNew;
    row.sinceOverhaul = sinceOverhaul;
    row.newOn = original.newOn;
    row.overhauledOn = original.overhauledOn;
    file(viewer, row, asked);
  }

  /**
   * A fitment, removal or overhaul of a component that somebody has corrected since: when it had
   * been, and what it was.
   */
  @Reading
  public Optional<Overtaken> overtaken(Viewer viewer, UUID componentId, UUID record) {
    return Stream.of(
            rows.row(Fitment.class, record).map(row -> named(row.componentId, "fitment", row)),
            rows.row(Removal.class, record)
                .flatMap(
                    row ->
                        rows.row(Fitment.class, row.fitmentId)
                            .map(fitment -> named(fitment.componentId, "removal", row))),
            rows.row(ComponentOverhaul.class, record)
                .map(row -> named(row.componentId, "overhaul", row)),
            rows.row(ComponentEvent.class, record).map(row -> named(row.componentId, "event", row)),
            rows.row(ComponentOpening.class, record)
                .map(row -> named(row.componentId, "opening", row)))
        .flatMap(Optional::stream)
        .filter(found -> found.getKey().equals(componentId))
        .map(Map.Entry::getValue)
        .findFirst();
  }

  private static Map.Entry<UUID, Overtaken> named(UUID componentId, String what, Filed row) {
    return Map.entry(componentId, new Overtaken(what, row.happenedAt()));
  }

  /** What stood where somebody's correction stands now. */
  public record Overtaken(String what, Instant at) {}

  private <T extends Filed> T original(Class<T> kind, Correcting asked, String what) {
    filings.notLater(asked.at(), "on");
    return rows.row(kind, asked.corrects())
        .orElseThrow(() -> new NotHere("There is no such " + what + " here."));
  }

  /** Also the aircraft that it was on then: what that carried changes. */
  private void take(Viewer viewer, Fitment fitment) {
    lock.take(
        viewer,
        fitment.assemblyId == null
            ? List.of(fitment.componentId)
            : List.of(fitment.componentId, fitment.assemblyId),
        fitment.aircraftId == null ? List.of() : List.of(fitment.aircraftId));
  }

  private Placement placement(Viewer viewer, UUID componentId, Predicate<Placement> which) {
    return components.history(viewer, componentId, View.EVERYTHING).placements().stream()
        .filter(which)
        .findFirst()
        .orElseThrow(() -> new Stale("Someone corrected this since you opened this form."));
  }

  private void refuseBeforeNew(Viewer viewer, UUID componentId, Instant at, String label) {
    check.refuseBeforeNew(
        viewer, components.history(viewer, componentId, View.EVERYTHING), at, label);
  }

  private void file(Viewer viewer, Filed row, Correcting asked) {
    row.correct(asked.corrects(), asked.reason());
    row.happened(asked.at(), viewer.dateOf(asked.at()));
    row.fromForm(asked.formKey());
    filings.file(viewer, row);
  }
}
