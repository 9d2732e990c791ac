package trestle.records.pack;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.ComponentSheet;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.formats.CanonicalJson;
import trestle.ledger.Extracts;
import trestle.ledger.Line;
import trestle.ledger.View;
import trestle.programme.RequirementRecords;
import trestle.programme.RequirementSheet;
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
  @Inject RequirementRecords requirementRecords;

  Selection of(Viewer viewer, PackSubject subject, long size) {
    return new Run(viewer, subject, size).found();
  }

  private final class Run {
    private final Viewer viewer;
    private final PackSubject subject;
    private final long size;
    private final View view;
    private final LinesTaken lines;
    private final OtherAircraft others;
    private final Set<UUID> parts;
    private final Set<UUID> holders;
    private final Map<UUID, Instant> flownUntil;
    private final Set<UUID> history;
    private final Set<UUID> wanted = new HashSet<>();
    private final TreeMap<String, String> attachments = new TreeMap<>();

    Run(Viewer viewer, PackSubject subject, long size) {
      this.viewer = viewer;
      this.subject = subject;
      this.size = size;
      this.view = new View(View.EVERYTHING.upTo(), size);
      this.lines = new LinesTaken(extracts, viewer.operatorId(), size);
      this.others = new OtherAircraft(lines);
      Whereabouts where = new Whereabouts(components, viewer, subject, view);
      this.parts = where.parts;
      this.holders = where.holders;
      this.flownUntil = where.flownUntil;
      this.history = new HashSet<>(holders);
    }

    Selection found() {
      if (subject.isAircraft()) {
        lines.take(lines.ofAircraft(subject.id()));
        lines.take(
            lines.named(List.of("rectification", "event-inspection"), "aircraft_id", subject.id()));
        formerParts();
      }
      linesOfParts();
      flownUntil.forEach(others::take);
      List<RequirementSheet> asked = requirementsAsked();
      directives();
      lines.take(lines.naming(List.of("part-sheet"), "part_number", partNumbers()));
      lines.each(
          Set.of("compliance", "defect", "abnormal-event", "directive", "line-photo"), this::files);
      return new Selection(
          subject,
          size,
          lines.all(),
          parts,
          history,
          Set.copyOf(flownUntil.keySet()),
          asked,
          attachments);
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
      List<Extracts.Mark> put = lines.naming(List.of("fitment"), "component_id", words(former));
      Set<String> here = words(parts);
      here.addAll(words(history));
      here.add(subject.id().toString());
      List<Long> fits = new ArrayList<>();
      lines.read(
          put.stream().map(Extracts.Mark::seq).toList(),
          line -> {
            JsonNode json = json(line);
            if (here.contains(json.path("aircraft_id").asText())
                || here.contains(json.path("assembly_id").asText())) {
              fits.add(line.seq());
            }
          });
      lines.take(put.stream().filter(mark -> fits.contains(mark.seq())).toList());
      history.addAll(former);
    }

    private void linesOfParts() {
      lines.take(lines.naming(OF_PARTS, "component_id", words(parts)));
      Set<UUID> all = new HashSet<>(parts);
      all.addAll(history);
      lines.take(lines.naming(List.of("component"), "component_id", words(all)));
      Set<UUID> placed = new HashSet<>(parts);
      placed.addAll(holders);
      lines.take(lines.naming(List.of("fitment"), "component_id", words(placed)));
      lines.take(lines.naming(List.of("removal"), "fitment_id", lines.recordsOf("fitment")));
      Set<String> defects = new HashSet<>();
      lines.each(Set.of("defect"), line -> defects.add(json(line).path("entry_id").asText()));
      lines.take(lines.naming(List.of("rectification"), "defect_entry_id", defects));
      lines.each(
          Set.of("compliance", "granted-extension", "directive-assessment"),
          line -> {
            if (line.aircraftId() != null && !line.aircraftId().equals(subject.id())) {
              flownUntil.putIfAbsent(line.aircraftId(), Instant.MIN);
            }
          });
      Set<String> signed = lines.recordsOf("compliance");
      signed.addAll(lines.recordsOf("rectification"));
      lines.take(lines.naming(List.of("signature"), "signs_record", signed));
    }

    /** Those that it carries, those that its lines name, and all of their programmes. */
    private List<RequirementSheet> requirementsAsked() {
      Set<UUID> programmes = new HashSet<>();
      lines.each(
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
          requirementRecords.scopes(
              viewer,
              new RequirementRecords.Scope(programmes, aircraft, parts, partNumbers(), wanted));
      found.stream()
          .map(RequirementSheet::programmeId)
          .filter(id -> id != null)
          .forEach(programmes::add);
      found =
          requirementRecords.scopes(
              viewer,
              new RequirementRecords.Scope(programmes, aircraft, parts, partNumbers(), wanted));
      for (RequirementSheet one : found) {
        boolean ofAnother =
            one.aircraftId() != null
                && !one.aircraftId().equals(subject.id())
                && !flownUntil.containsKey(one.aircraftId());
        if (ofAnother) {
          flownUntil.put(one.aircraftId(), Instant.MIN);
          others.take(one.aircraftId(), Instant.MIN);
        }
      }
      Set<String> ids = found.stream().map(one -> one.id().toString()).collect(Collectors.toSet());
      lines.take(lines.naming(List.of("requirement-revision", "task-list"), "requirement_id", ids));
      lines.take(lines.naming(List.of("programme"), "id", words(programmes)));
      lines.take(lines.naming(List.of("programme-revision"), "programme_id", words(programmes)));
      return found.stream().sorted(Comparator.comparing(one -> one.id().toString())).toList();
    }

    /** Those assessed, and those that could be about its type or its parts. */
    private void directives() {
      Set<String> assessed = new HashSet<>();
      lines.each(
          Set.of("directive-assessment"),
          line -> assessed.add(json(line).path("paragraph_id").asText()));
      Set<String> keys = new HashSet<>();
      partNumbers().forEach(number -> keys.add("component " + ComponentSheet.partKey(number)));
      if (subject.isAircraft()) {
        keys.add(
            "aircraft "
                + ComponentSheet.partKey(fleet.sheet(viewer, subject.id(), view).typeName()));
      }
      Set<String> found = new HashSet<>();
      lines.read(
          lines
              .naming(
                  List.of("directive-paragraph"),
                  "operator_id",
                  List.of(viewer.operatorId().toString()))
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
      lines.take(lines.naming(List.of("directive", "directive-paragraph"), "directive_id", found));
      lines.read(
          lines.naming(List.of("alternative-method"), "directive_id", found).stream()
              .map(Extracts.Mark::seq)
              .toList(),
          line -> {
            if (line.aircraftId() == null) {
              lines.take(line);
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
  }

  static JsonNode json(Line line) {
    return CanonicalJson.parse(line.json());
  }

  private static Optional<UUID> id(JsonNode json, String field) {
    return json.hasNonNull(field)
        ? Optional.of(UUID.fromString(json.get(field).asText()))
        : Optional.empty();
  }

  private static Set<String> words(Collection<UUID> ids) {
    return ids.stream().map(UUID::toString).collect(Collectors.toCollection(HashSet::new));
  }
}
