package trestle.records.pack;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.formats.CanonicalJson;
import trestle.formats.Csv;
import trestle.ledger.Extracts;
import trestle.ledger.Line;
import trestle.ledger.Refiling;
import trestle.ledger.View;
import trestle.programme.RequirementSheet;
import trestle.web.Viewer;

/** The tables of a pack: one a kind, and what is needed to read them; with the attachments. */
@ApplicationScoped
class PackTables {
  @Inject PackTotals totals;
  @Inject Attachments attachments;
  @Inject Extracts extracts;
  @Inject Refiling refiling;
  @Inject Fleet fleet;
  @Inject Components components;

  void write(Viewer viewer, Selection selection, View view, PackWriter pack) throws IOException {
    records(viewer, selection, pack);
    context(viewer, selection, view, pack);
  }

  /** One table a kind, its columns those of the database. */
  private void records(Viewer viewer, Selection selection, PackWriter pack) throws IOException {
    for (String kind : new TreeSet<>(selection.lines().values())) {
      List<String> columns = refiling.columns(kind);
      List<Long> seqs =
          selection.lines().entrySet().stream()
              .filter(line -> line.getValue().equals(kind))
              .map(Map.Entry::getKey)
              .toList();
      pack.file(
          PackNames.csv(kind),
          out -> {
            out.write(Csv.row(columns).getBytes(UTF_8));
            for (List<Long> some : portions(seqs)) {
              for (Line line : extracts.at(viewer.operatorId(), some)) {
                out.write(Csv.row(cells(columns, Selecting.json(line))).getBytes(UTF_8));
              }
            }
          });
    }
  }

  private static List<String> cells(List<String> columns, JsonNode json) {
    return columns.stream()
        .map(json::path)
        .map(value -> value.isContainerNode() ? CanonicalJson.of(value) : value.asText())
        .toList();
  }

  private void context(Viewer viewer, Selection selection, View view, PackWriter pack)
      throws IOException {
    pack.file(PackNames.AIRCRAFT, csv(aircraft(viewer, selection, view)));
    pack.file(PackNames.COMPONENTS, csv(parts(viewer, selection, view)));
    pack.file(PackNames.REQUIREMENTS, csv(requirements(selection)));
    List<List<String>> figures = new ArrayList<>();
    figures.add(List.of("of", "what", "counter", "units"));
    totals
        .of(viewer, selection.subject(), selection.parts(), view)
        .forEach(total -> figures.add(total.cells()));
    pack.file(PackNames.TOTALS, csv(figures));
    attachments(viewer, selection, pack);
  }

  private List<List<String>> aircraft(Viewer viewer, Selection selection, View view) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("id", "registration", "type_name", "serial", "part"));
    Set<UUID> ids = new TreeSet<>(selection.flownOn());
    if (selection.subject().isAircraft()) {
      ids.add(selection.subject().id());
    }
    for (AircraftSheet one :
        fleet.sheets(viewer, ids, view).values().stream()
            .sorted(Comparator.comparing(sheet -> sheet.id().toString()))
            .toList()) {
      rows.add(
          List.of(
              one.id().toString(),
              one.registration(),
              one.typeName(),
              one.particulars().serial(),
              one.id().equals(selection.subject().id()) ? "subject" : "history"));
    }
    return rows;
  }

  private List<List<String>> parts(Viewer viewer, Selection selection, View view) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("id", "part_number", "serial", "description", "part"));
    Set<UUID> ids = new TreeSet<>(selection.parts());
    ids.addAll(selection.history());
    components.sheets(viewer, ids, view).values().stream()
        .sorted(Comparator.comparing(sheet -> sheet.id().toString()))
        .forEach(
            one ->
                rows.add(
                    List.of(
                        one.id().toString(),
                        one.partNumber(),
                        one.serial(),
                        one.description(),
                        selection.parts().contains(one.id()) ? "subject" : "history")));
    return rows;
  }

  private static List<List<String>> requirements(Selection selection) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of("id", "programme_id", "aircraft_id", "component_id", "part_number", "subject"));
    for (RequirementSheet one : selection.requirements()) {
      rows.add(
          List.of(
              one.id().toString(),
              text(one.programmeId()),
              text(one.aircraftId()),
              text(one.componentId()),
              one.partNumber() == null ? "" : one.partNumber(),
              one.subject()));
    }
    return rows;
  }

  private void attachments(Viewer viewer, Selection selection, PackWriter pack) throws IOException {
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("sha256", "kind", "name", "media_type", "bytes"));
    for (Map.Entry<String, String> one : selection.attachments().entrySet()) {
      Attachments.Kept file = attachments.read(viewer, one.getKey(), one.getValue());
      pack.file(PackNames.attachment(one.getKey(), file), out -> out.write(file.bytes()));
      rows.add(
          List.of(
              one.getKey(),
              file.kind(),
              file.name(),
              file.mediaType(),
              Integer.toString(file.bytes().length)));
    }
    pack.file(PackNames.ATTACHMENTS, csv(rows));
  }

  static String csv(List<List<String>> rows) {
    StringBuilder text = new StringBuilder();
    rows.forEach(row -> text.append(Csv.row(row)));
    return text.toString();
  }

  private static String text(UUID id) {
    return id == null ? "" : id.toString();
  }

  static List<List<Long>> portions(List<Long> seqs) {
    List<List<Long>> all = new ArrayList<>();
    for (int from = 0; from < seqs.size(); from += Selecting.AT_ONCE) {
      all.add(seqs.subList(from, Math.min(from + Selecting.AT_ONCE, seqs.size())));
    }
    return all;
  }
}
