package trestle.fleet;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.ledger.View;
import trestle.web.Option;
import trestle.web.Reading;
import trestle.web.Viewer;

/** Where components could go, and where they are, as a form offers and names it. */
@ApplicationScoped
public class Spots {
  static final String IN = "in/";

  @Inject Components components;
  @Inject Fleet fleet;
  @Inject Parts parts;
  @Inject SpotCheck check;

  /** "QX-ABC (Engine 1, left)", or "Engine, part E, serial 7 (left magneto)". */
  @Reading
  public String words(Viewer viewer, Placement placement) {
    return check.words(viewer, placement);
  }

  /**
   * Every position of this kind of the operator's aircraft and what is in it now; for a part of
   * another kind than engines and propellers also these, to sit in.
   */
  @Reading
  public List<Option> of(Viewer viewer, PartKind kind) {
    List<AircraftSheet> aircraft =
        fleet.sheets(viewer, View.EVERYTHING).stream().filter(each -> !each.retired()).toList();
    List<UUID> ids = aircraft.stream().map(AircraftSheet::id).toList();
    Map<UUID, List<Position>> positions = fleet.positions(viewer, ids, View.EVERYTHING);
    Map<UUID, List<Fitting>> fittings = components.fittings(viewer, ids, View.EVERYTHING);
    List<Option> places = new ArrayList<>();
    for (AircraftSheet each : aircraft) {
      for (Position position : positions.getOrDefault(each.id(), List.of())) {
        if (position.kind() == kind) {
          places.add(
              new Option(
                  each.id() + "/" + position.code(),
                  each.registration()
                      + ", "
                      + position.label()
                      + in(fittings.getOrDefault(each.id(), List.of()), position)));
        }
      }
    }
    if (kind == PartKind.OTHER) {
      components.sheets(viewer, View.EVERYTHING).stream()
          .filter(sheet -> sheet.kind() != PartKind.OTHER)
          .forEach(sheet -> places.add(in(sheet)));
    }
    return places;
  }

  /**
   * Those of them that the component's part sheet allows, and the parts of any kind that the sheet
   * names; any position of its kind where it has no sheet.
   */
  @Reading
  public List<Option> offered(Viewer viewer, ComponentSheet component) {
    List<Option> all = of(viewer, component.kind());
    PartSheet part = parts.of(viewer, component.partNumber(), View.EVERYTHING).orElse(null);
    if (part == null) {
      return all;
    }
    Map<String, String> holders = new HashMap<>();
    fleet
        .sheets(viewer, View.EVERYTHING)
        .forEach(sheet -> holders.put(sheet.id().toString(), sheet.typeName()));
    List<ComponentSheet> larger =
        component.kind() == PartKind.OTHER ? components.sheets(viewer, View.EVERYTHING) : List.of();
    larger.forEach(sheet -> holders.put(IN + sheet.id(), sheet.partNumber()));
    List<Option> offered = new ArrayList<>();
    all.stream().filter(one -> allows(part, one.value(), holders)).forEach(offered::add);
    larger.stream()
        .filter(sheet -> sheet.kind() == PartKind.OTHER && !sheet.id().equals(component.id()))
        .filter(sheet -> part.names(sheet.partNumber()))
        .forEach(sheet -> offered.add(in(sheet)));
    return offered;
  }

  /** Where a form may say that it goes: what is offered, and what is refused with a reason. */
  @Reading
  public Set<String> nameable(Viewer viewer, ComponentSheet component) {
    Set<String> nameable = new HashSet<>();
    of(viewer, component.kind()).forEach(one -> nameable.add(one.value()));
    offered(viewer, component).forEach(one -> nameable.add(one.value()));
    return nameable;
  }

  /** Which place in a larger part is typed later: only what that is counts here. */
  private static boolean allows(PartSheet part, String place, Map<String, String> holders) {
    if (place.startsWith(IN)) {
      return part.goesInto(holders.getOrDefault(place, ""));
    }
    String position = place.substring(37);
    String type = holders.getOrDefault(place.substring(0, 36), "");
    return part.refusal(type, position, position) == null;
  }

  private static Option in(ComponentSheet larger) {
    return new Option(IN + larger.id(), "In " + larger.words());
  }

  /** What could change places with a component: others of its kind, and where they are now. */
  @Reading
  public List<Option> others(Viewer viewer, ComponentSheet component) {
    List<ComponentSheet> same =
        components.sheets(viewer, View.EVERYTHING).stream()
            .filter(sheet -> sheet.kind() == component.kind())
            .filter(sheet -> !sheet.id().equals(component.id()))
            .toList();
    Map<UUID, ComponentHistory> histories =
        components.histories(
            viewer, same.stream().map(ComponentSheet::id).toList(), View.EVERYTHING);
    Map<UUID, String> marks = new HashMap<>();
    fleet
        .sheets(viewer, View.EVERYTHING)
        .forEach(sheet -> marks.put(sheet.id(), sheet.registration()));
    return same.stream()
        .filter(sheet -> histories.get(sheet.id()).state() != ComponentState.RETIRED)
        .map(
            sheet ->
                new Option(
                    sheet.id().toString(),
                    sheet.words() + ", " + whereabouts(histories.get(sheet.id()), marks)))
        .toList();
  }

  /** The place that a form's choice names. */
  static Spot read(String choice, String place) {
    return choice.startsWith(IN)
        ? Spot.in(UUID.fromString(choice.substring(IN.length())), place)
        : Spot.on(UUID.fromString(choice.substring(0, 36)), choice.substring(37));
  }

  private static String whereabouts(ComponentHistory history, Map<UUID, String> marks) {
    Fitting fitted = history.fitted();
    return fitted == null
        ? history.state().words()
        : marks.get(fitted.aircraftId()) + ", " + fitted.positionLabel();
  }

  private static String in(List<Fitting> fittings, Position position) {
    return fittings.stream()
        .filter(fitting -> fitting.isFitted() && fitting.positionCode().equals(position.code()))
        .map(fitting -> " (serial " + fitting.serial() + " is fitted)")
        .findFirst()
        .orElse("");
  }
}
