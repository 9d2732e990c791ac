package trestle.records.pack;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.ledger.Extracts;
import trestle.ledger.View;
import trestle.programme.RequirementSheet;
import trestle.web.Shown;
import trestle.web.Viewer;

/** What of a pack stands here already, and what speaks against taking it in. */
@ApplicationScoped
class Conflicts {
  /** Each with what to do about it. */
  private static final Map<String, String> LEFT_AS_TEXT =
      Map.of(
          "work-order",
          "Work orders are kept as text. What was not finished grounds the aircraft here, until"
              + " somebody has looked and lifts it.",
          "defect-triage",
          "Triage is kept as text: an open defect that was not deferred is to be triaged here.",
          "work-release",
          "Releases are kept as text: what was certified there was not certified here.",
          "rule-profile-revision",
          "The aircraft’s own rule profile is kept as text: here it goes by this operator’s.",
          "safety-occurrence",
          "Safety occurrences are kept as text: reporting them was the other operator’s.");

  @Inject TakenRepository repository;
  @Inject Extracts extracts;
  @Inject Fleet fleet;
  @Inject Components components;

  /** Records of the pack that an earlier pack brought. */
  Set<UUID> here(Viewer viewer, Checked pack) {
    Set<UUID> all = new HashSet<>();
    pack.recordIds()
        .forEach((kind, ids) -> all.addAll(extracts.known(viewer.operatorId(), kind, ids)));
    return all;
  }

  /** Reasons why it can't be taken in, in whole sentences. */
  List<String> against(Viewer viewer, Checked pack) {
    List<String> against = new ArrayList<>();
    if (pack.fromOperator().equals(viewer.operatorId())) {
      against.add("It is this operator’s own pack: its records are here.");
      return against;
    }
    if (repository.isTaken(pack.manifestSha256())) {
      against.add("This pack was taken in already.");
      return against;
    }
    Set<UUID> own = own(viewer, pack);
    boolean back = comesBack(viewer, pack, own);
    if (!own.isEmpty() && !back) {
      against.add(
          own.size()
              + " of its records stand here and did not come in a pack: its aircraft or component"
              + " was in these records before.");
    }
    aircraft(viewer, pack, back, against);
    parts(viewer, pack, back, against);
    return against;
  }

  /** Records of the pack that this operator filed itself. */
  private Set<UUID> own(Viewer viewer, Checked pack) {
    Set<UUID> own = here(viewer, pack);
    own.removeAll(new HashSet<>(repository.came(own)));
    return own;
  }

  /** Whether it, or a part of it, was here once, was handed over, and now comes back. */
  private boolean comesBack(Viewer viewer, Checked pack, Set<UUID> own) {
    UUID id = pack.subject().id();
    return !own.isEmpty()
        && (!components.sheets(viewer, pack.parts(), View.EVERYTHING).isEmpty()
            || pack.subject().isAircraft()
                && !fleet.sheets(viewer, List.of(id), View.EVERYTHING).isEmpty());
  }

  private void aircraft(Viewer viewer, Checked pack, boolean back, List<String> against) {
    if (!pack.subject().isAircraft()) {
      return;
    }
    List<AircraftSheet> all = fleet.sheets(viewer, View.EVERYTHING);
    for (AircraftSheet one : all) {
      if (one.id().equals(pack.subject().id())) {
        if (back) {
          continue;
        }
        against.add(
            one.registration()
                + (one.retired()
                    ? " is here for the history of a part that came before; it can’t be taken in as a"
                        + " whole yet."
                    : " is here already: a record is taken in once."));
      } else if (!one.retired() && isSame(one, pack.names().get(pack.subject().id()))) {
        against.add(
            "Another aircraft here, "
                + one.registration()
                + ", has the same type and serial number: its record was begun here by hand.");
      } else if (one.registration().equals(pack.words()) && !one.retired()) {
        against.add(
            "Another aircraft here has the registration "
                + pack.words()
                + ". Retire that one, or give it its new registration, first.");
      }
    }
  }

  private static boolean isSame(AircraftSheet one, List<String> names) {
    return names != null
        && one.typeName().equalsIgnoreCase(names.get(1))
        && one.particulars().serial().equalsIgnoreCase(names.get(2));
  }

  private void parts(Viewer viewer, Checked pack, boolean back, List<String> against) {
    if (pack.fitted()) {
      against.add(
          "It was still fitted when the pack was made: ask for one made after its removal.");
    }
    Set<String> keys = new HashSet<>();
    Set<String> serials = new HashSet<>();
    for (UUID part : pack.parts()) {
      List<String> names = pack.names().get(part);
      keys.add(ComponentSheet.partKey(names.get(0)));
      serials.add(
          ComponentSheet.partKey(names.get(0)) + " " + names.get(1).toLowerCase(Locale.ROOT));
    }
    for (ComponentSheet one : components.withParts(viewer, keys, View.EVERYTHING)) {
      boolean same =
          serials.contains(
              ComponentSheet.partKey(one.partNumber())
                  + " "
                  + one.serial().toLowerCase(Locale.ROOT));
      if (same && !pack.parts().contains(one.id())) {
        against.add(one.words() + ", is here already: its record was begun here by hand.");
      }
    }
    if (back) {
      return;
    }
    for (ComponentSheet one : components.sheets(viewer, pack.parts(), View.EVERYTHING).values()) {
      against.add(one.words() + ", is here already: a record is taken in once.");
    }
  }

  /** What whoever takes it in should know; whole sentences. */
  List<String> mind(Viewer viewer, Checked pack, Map<String, Integer> kept) {
    List<String> mind = new ArrayList<>();
    LEFT_AS_TEXT.forEach(
        (kind, sentence) -> {
          if (kept.containsKey(kind)) {
            mind.add(sentence);
          }
        });
    mind.sort(String::compareTo);
    Set<UUID> own = own(viewer, pack);
    if (comesBack(viewer, pack, own)) {
      mind.add(cameBack(viewer, pack, own.size()));
    }
    for (AircraftSheet one : fleet.sheets(viewer, of(pack), View.EVERYTHING).values()) {
      if (one.retired()) {
        mind.add(
            one.registration()
                + " stands here as retired: state its particulars again afterwards, to fly it.");
      }
    }
    Set<UUID> strange = new HashSet<>(pack.flownOn());
    strange.removeAll(fleet.sheets(viewer, strange, View.EVERYTHING).keySet());
    if (!strange.isEmpty()) {
      mind.add(
          "Parts of it were on "
              + strange.size()
              + (strange.size() == 1 ? " other aircraft" : " other aircraft each")
              + " before: those flights come along, and the aircraft stands here as retired.");
    }
    Set<String> numbers = new HashSet<>();
    for (RequirementSheet one : pack.requirements().values()) {
      if (one.partNumber() != null) {
        numbers.add(one.partNumber());
      }
    }
    Set<String> keys = new HashSet<>();
    numbers.forEach(number -> keys.add(ComponentSheet.partKey(number)));
    List<ComponentSheet> same =
        keys.isEmpty() ? List.of() : components.withParts(viewer, keys, View.EVERYTHING);
    if (!same.isEmpty()) {
      mind.add(
          "Requirements of a part number come along; they will also be asked of "
              + same.size()
              + " of that number here.");
    }
    return mind;
  }

  private static List<UUID> of(Checked pack) {
    return pack.subject().isAircraft() ? List.of(pack.subject().id()) : List.of();
  }

  private String cameBack(Viewer viewer, Checked pack, int own) {
    String stay =
        Shown.plural(own, "record")
            + " of it stand here and stay as they are; what was filed since is added.";
    boolean partAlone =
        pack.subject().isAircraft()
            && fleet.sheets(viewer, List.of(pack.subject().id()), View.EVERYTHING).isEmpty();
    return (partAlone ? "A part of it was here before: " : "It was here before: ") + stay;
  }
}
