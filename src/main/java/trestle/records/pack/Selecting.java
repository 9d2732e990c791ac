package trestle.records.pack;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Consumer;
import java.util.stream.Collectors;
import trestle.fleet.ComponentHistory;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.Fleet;
import trestle.fleet.Placement;
import trestle.formats.CanonicalJson;
import trestle.ledger.Extracts;
import trestle.ledger.Line;
import trestle.ledger.View;
import trestle.programme.RequirementSheet;
import trestle.programme.Requirements;
import trestle.web.Viewer;

/**
 * Finds the lines that make up the record of an aircraft or a component: its own, those of its
 * parts, the flights of other aircraft that its parts were on (their totals come from there), and
 * the requirements and directives that any of these name.
 */
@ApplicationScoped
class Selecting {
  /** Read at once, so that memory stays small however long the record is. */
  static final int AT_ONCE = 500;

  /** What is stated of a component wherever it is. */
  private static final List<String> OF_PARTS =
      List.of(
          "component-opening",
          "component-overhaul",
          "component-event",
          "component-meter-reading",
          "reading-limit",
          "compliance",
          "granted-extension",
          "directive-assessment",
          "defect",
          "part-use",
          "work-reading");

  /** Of another aircraft, what the hours of a part that was on it are told from. */
  private static final Set<String> OF_OTHERS =
      Set.of(
          "aircraft-particulars",
          "aircraft-position",
          "counter-opening",
          "meter-change",
          "journey-log-entry",
          "break-explanation");

  private static final Set<String> NAME_REQUIREMENTS =
      Set.of(
          "compliance",
          "granted-extension",
          "directive-assessment",
          "requirement-exclusion",
          "deferral",
          "work-line",
          "programme-adoption");

  @Inject Extracts extracts;
  @Inject Components components;
  @Inject Fleet fleet;
  @Inject Requirements requirements;

  Selection of(Viewer viewer, PackSubject subject, long size) {
    return new Run(viewer, subject, size).found();
  }

  private final class Run {
    private final Viewer viewer;
    private final UUID operator;
    private final PackSubject subject;
    private final long size;
    private final View view;
    private final TreeMap<Long, String> lines = new TreeMap<>();
    private final Set<UUID> parts = new HashSet<>();
    private final Set<UUID> history = new HashSet<>();
    private final Set<UUID> holders = new HashSet<>();
    private final Map<UUID, Instant> flownUntil = new HashMap<>();
    private final Set<UUID> wanted = new HashSet<>();
    private final TreeMap<String, String> attachments = new TreeMap<>();

    Run(Viewer viewer, PackSubject subject, long size) {
      this.viewer = viewer;
      this.operator = viewer.operatorId();
      this.subject = subject;
      this.size = size;
      this.view = new View(View.EVERYTHING.upTo(), size);
    }

    Selection found() {
      handedOver();
      placesOfParts();
      if (subject.isAircraft()) {
        take(extracts.ofAircraft(operator, subject.id(), size));
        take(named(List.of("rectification", "event-inspection"), "aircraft_id", subject.id()));
        formerParts();
      }
      linesOfParts();
      flownUntil.forEach(this::otherAircraft);
      List<RequirementSheet> asked = requirementsAsked();
      directives();
      take(naming(List.of("part-sheet"), "part_number", partNumbers()));
      each(
          Set.of("compliance", "defect", "abnormal-event", "directive", "line-photo"), this::files);
      return new Selection(
          subject,
          size,
          lines,
          parts,
          history,
          Set.copyOf(flownUntil.keySet()),
          asked,
          attachments);
    }

    /** The subject's parts, and what sits in them, however deep. */
    private void handedOver() {
      if (subject.isAircraft()) {
        parts.addAll(components.fittedTo(viewer, List.of(subject.id()), view).keySet());
        return;
      }
      List<UUID> open = List.of(subject.id());
      while (!open.isEmpty()) {
        parts.addAll(open);
        open =
            components.inside(viewer, open, view).stream()
                .filter(Placement::isOpen)
                .map(Placement::componentId)
                .filter(id -> !parts.contains(id))
                .toList();
      }
    }

    /** All they ever sat in, and the other aircraft that they flew on, until when. */
    private void placesOfParts() {
      Collection<UUID> open = parts;
      while (!open.isEmpty()) {
        Set<UUID> next = new HashSet<>();
        for (ComponentHistory one : components.histories(viewer, open, view).values()) {
          one.placements().stream()
              .filter(Placement::isInComponent)
              .map(Placement::assemblyId)
              .filter(id -> !parts.contains(id) && !holders.contains(id))
              .forEach(next::add);
          if (parts.contains(one.sheet().id())) {
            one.fittings().forEach(this::flew);
          } else {
            one.placements().stream()
                .filter(placement -> !placement.isInComponent())
                .forEach(placement -> flownUntil.putIfAbsent(placement.aircraftId(), Instant.MIN));
          }
        }
        holders.addAll(next);
        open = next;
      }
      history.addAll(holders);
      flownUntil.remove(subject.id());
    }

    private void flew(Fitting fitting) {
      Instant until = fitting.to() == null ? Instant.MAX : fitting.to();
      flownUntil.merge(
          fitting.aircraftId(), until, (one, other) -> one.isAfter(other) ? one : other);
    }

    /** What was on the aircraft, or in its parts, and is no more: that it was there, no more. */
    private void formerParts() {
      Set<UUID> former = new HashSet<>();
      components
          .fittings(viewer, List.of(subject.id()), view)
          .values()
          .forEach(all -> all.forEach(fitting -> former.add(fitting.componentId())));
      components
          .inside(viewer, parts, view)
          .forEach(placement -> former.add(placement.componentId()));
      former.removeAll(parts);
      former.removeAll(history);
      List<Extracts.Mark> put = naming(List.of("fitment"), "component_id", words(former));
      Set<String> here = words(parts);
      here.addAll(words(history));
      here.add(subject.id().toString());
      List<Long> fits = new ArrayList<>();
      read(
          put.stream().map(Extracts.Mark::seq).toList(),
          line -> {
            JsonNode json = json(line);
            if (here.contains(json.path("aircraft_id").asText())
                || here.contains(json.path("assembly_id").asText())) {
              fits.add(line.seq());
            }
          });
      take(put.stream().filter(mark -> fits.contains(mark.seq())).toList());
      history.addAll(former);
    }

    private void linesOfParts() {
      take(naming(OF_PARTS, "component_id", words(parts)));
      Set<UUID> all = new HashSet<>(parts);
      all.addAll(history);
      take(naming(List.of("component"), "component_id", words(all)));
      Set<UUID> placed = new HashSet<>(parts);
      placed.addAll(holders);
      take(naming(List.of("fitment"), "component_id", words(placed)));
      Set<String> fitments = recordsOf("fitment");
      take(naming(List.of("removal"), "fitment_id", fitments));
      Set<String> defects = new HashSet<>();
      each(Set.of("defect"), line -> defects.add(json(line).path("entry_id").asText()));
      take(naming(List.of("rectification"), "defect_entry_id", defects));
      each(
          Set.of("compliance", "granted-extension", "directive-assessment"),
          line -> {
            if (line.aircraftId() != null && !line.aircraftId().equals(subject.id())) {
              flownUntil.putIfAbsent(line.aircraftId(), Instant.MIN);
            }
          });
      Set<String> signed = recordsOf("compliance");
      signed.addAll(recordsOf("rectification"));
      take(naming(List.of("signature"), "signs_record", signed));
    }

    /** Its flights until the part left it, with those that correct them; a day's end for safety. */
    private void otherAircraft(UUID aircraft, Instant until) {
      List<Extracts.Mark> all =
          extracts.ofAircraft(operator, aircraft, size).stream()
              .filter(mark -> OF_OTHERS.contains(mark.kind()))
              .toList();
      Map<String, Set<UUID>> rowsOfEntry = new HashMap<>();
      Set<UUID> kept = new HashSet<>();
      Set<String> early = new HashSet<>();
      Map<Long, String> explained = new HashMap<>();
      read(
          all.stream().map(Extracts.Mark::seq).toList(),
          line -> {
            JsonNode json = json(line);
            if (line.kind().equals("journey-log-entry")) {
              String entry = json.path("entry_id").asText();
              rowsOfEntry.computeIfAbsent(entry, id -> new HashSet<>()).add(line.recordId());
              if (!Instant.parse(json.path("take_off_at").asText()).isAfter(until)) {
                early.add(entry);
              }
            } else if (line.kind().equals("break-explanation")) {
              explained.put(line.seq(), json.path("flight_id").asText());
            }
          });
      early.forEach(entry -> kept.addAll(rowsOfEntry.get(entry)));
      take(
          all.stream()
              .filter(
                  mark ->
                      switch (mark.kind()) {
                        case "journey-log-entry" -> kept.contains(mark.recordId());
                        case "break-explanation" ->
                            kept.contains(UUID.fromString(explained.get(mark.seq())));
                        default -> true;
                      })
              .toList());
    }

    /** Those that it carries, those that its lines name, and all of their programmes. */
    private List<RequirementSheet> requirementsAsked() {
      Set<UUID> programmes = new HashSet<>();
      each(
          NAME_REQUIREMENTS,
          line -> {
            JsonNode json = json(line);
            id(json, "requirement_id").ifPresent(wanted::add);
            id(json, "with_requirement_id").ifPresent(wanted::add);
            if (line.kind().equals("programme-adoption")) {
              id(json, "programme_id").ifPresent(programmes::add);
            }
          });
      Set<UUID> aircraft = subject.isAircraft() ? Set.of(subject.id()) : Set.of();
      List<RequirementSheet> found =
          requirements.scopes(
              viewer, new Requirements.Scope(programmes, aircraft, parts, partNumbers(), wanted));
      found.stream()
          .map(RequirementSheet::programmeId)
          .filter(id -> id != null)
          .forEach(programmes::add);
      found =
          requirements.scopes(
              viewer, new Requirements.Scope(programmes, aircraft, parts, partNumbers(), wanted));
      for (RequirementSheet one : found) {
        boolean ofAnother =
            one.aircraftId() != null
                && !one.aircraftId().equals(subject.id())
                && !flownUntil.containsKey(one.aircraftId());
        if (ofAnother) {
          flownUntil.put(one.aircraftId(), Instant.MIN);
          otherAircraft(one.aircraftId(), Instant.MIN);
        }
      }
      Set<String> ids = found.stream().map(one -> one.id().toString()).collect(Collectors.toSet());
      take(naming(List.of("requirement-revision", "task-list"), "requirement_id", ids));
      take(naming(List.of("programme"), "id", words(programmes)));
      take(naming(List.of("programme-revision"), "programme_id", words(programmes)));
      return found.stream()
          .sorted(java.util.Comparator.comparing(one -> one.id().toString()))
          .toList();
    }

    /** Those assessed, and those that could be about its type or its parts. */
    private void directives() {
      Set<String> assessed = new HashSet<>();
      each(
          Set.of("directive-assessment"),
          line -> assessed.add(json(line).path("paragraph_id").asText()));
      Set<String> keys = new HashSet<>();
      partNumbers().forEach(number -> keys.add("component " + ComponentSheet.partKey(number)));
      if (subject.isAircraft()) {
        String type = fleet.sheet(viewer, subject.id(), view).typeName();
        keys.add("aircraft " + ComponentSheet.partKey(type));
      }
      Set<String> found = new HashSet<>();
      read(
          naming(List.of("directive-paragraph"), "operator_id", List.of(operator.toString()))
              .stream()
              .map(Extracts.Mark::seq)
              .toList(),
          line -> {
            JsonNode json = json(line);
            boolean about = assessed.contains(json.path("paragraph_id").asText());
            for (JsonNode name : json.path("names")) {
              about |=
                  keys.contains(
                      json.path("about").asText() + " " + ComponentSheet.partKey(name.asText()));
            }
            if (about) {
              found.add(json.path("directive_id").asText());
            }
          });
      take(naming(List.of("directive", "directive-paragraph"), "directive_id", found));
      read(
          naming(List.of("alternative-method"), "directive_id", found).stream()
              .map(Extracts.Mark::seq)
              .toList(),
          line -> {
            if (line.aircraftId() == null) {
              lines.put(line.seq(), line.kind());
            }
          });
    }

    private void files(Line line) {
      JsonNode json = json(line);
      json.path("photos").forEach(photo -> attachments.put(photo.asText(), Attachments.PHOTO));
      json.path("more_files").forEach(more -> attachments.put(more.asText(), Attachments.DOCUMENT));
      if (json.hasNonNull("photo")) {
        attachments.put(json.get("photo").asText(), Attachments.PHOTO);
      }
      if (json.hasNonNull("file_sha256")) {
        attachments.put(
            json.get("file_sha256").asText(),
            line.kind().equals("directive") ? Attachments.DIRECTIVE : Attachments.DOCUMENT);
      }
    }

    private Set<String> partNumbers() {
      return components.sheets(viewer, parts, view).values().stream()
          .map(ComponentSheet::partNumber)
          .collect(Collectors.toSet());
    }

    private Set<String> recordsOf(String kind) {
      Set<String> ids = new HashSet<>();
      each(Set.of(kind), line -> ids.add(line.recordId().toString()));
      return ids;
    }

    private List<Extracts.Mark> named(List<String> kinds, String field, UUID id) {
      return naming(kinds, field, List.of(id.toString()));
    }

    private List<Extracts.Mark> naming(
        List<String> kinds, String field, Collection<String> values) {
      return extracts.naming(operator, kinds, field, values, size);
    }

    private void take(List<Extracts.Mark> marks) {
      marks.forEach(mark -> lines.put(mark.seq(), mark.kind()));
    }

    /** Reads lines that were taken, a few at a time. */
    private void each(Set<String> kinds, Consumer<Line> reader) {
      read(
          lines.entrySet().stream()
              .filter(line -> kinds.contains(line.getValue()))
              .map(Map.Entry::getKey)
              .toList(),
          reader);
    }

    private void read(List<Long> seqs, Consumer<Line> reader) {
      for (int from = 0; from < seqs.size(); from += AT_ONCE) {
        extracts
            .at(operator, seqs.subList(from, Math.min(from + AT_ONCE, seqs.size())))
            .forEach(reader);
      }
    }
  }

  static JsonNode json(Line line) {
    return CanonicalJson.parse(line.json());
  }

  private static java.util.Optional<UUID> id(JsonNode json, String field) {
    return json.hasNonNull(field)
        ? java.util.Optional.of(UUID.fromString(json.get(field).asText()))
        : java.util.Optional.empty();
  }

  private static Set<String> words(Collection<UUID> ids) {
    return ids.stream().map(UUID::toString).collect(Collectors.toCollection(HashSet::new));
  }
}
