package trestle.records.pack;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import trestle.fleet.ComponentHistory;
import trestle.fleet.Components;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.ledger.Numbers;
import trestle.ledger.Refiling;
import trestle.ledger.View;
import trestle.programme.RequirementSheet;
import trestle.programme.Requirements;
import trestle.web.Viewer;

/** Files the records of a pack anew, and keeps its lines as they came beside them. */
@ApplicationScoped
class Refiled {
  private static final int AT_ONCE = 500;

  @Inject TakenRepository repository;
  @Inject Attachments attachments;
  @Inject Refiling refiling;
  @Inject Ledger ledger;
  @Inject Numbers numbers;
  @Inject Components components;
  @Inject Requirements requirements;

  /** A pack that is being filed; {@code here} came with an earlier one. */
  record Job(Viewer viewer, Act act, UUID packId, PackFile file, Checked pack, Set<UUID> here) {}

  void file(Job job) {
    new Lines(job).file();
  }

  void files(Viewer viewer, PackFile file, Checked pack) {
    pack.files()
        .forEach(
            (sha256, about) -> {
              Attachments.Kept kept =
                  new Attachments.Kept(about.get(0), about.get(1), about.get(2), null);
              String name = PackNames.attachment(sha256, kept);
              byte[] bytes = file.bytes(name, 20L << 20);
              try {
                attachments.takeUp(
                    viewer,
                    new Attachments.Kept(kept.kind(), kept.name(), kept.mediaType(), bytes));
              } catch (IllegalArgumentException e) {
                throw PackFile.refused("Its file “" + name + "” " + e.getMessage() + ".");
              }
            });
  }

  /** The lines, a few hundred at a time, each beside what it was filed as. */
  private final class Lines {
    private final Viewer viewer;
    private final Act act;
    private final UUID packId;
    private final PackFile file;
    private final Checked pack;
    private final Set<UUID> here;
    private final Fates fates;
    private final Transcript transcript;
    private final Set<UUID> begun = new HashSet<>();
    private final List<Filed> rows = new ArrayList<>();
    private final List<TakenRepository.Row> kept = new ArrayList<>();

    Lines(Job job) {
      viewer = job.viewer();
      act = job.act();
      packId = job.packId();
      file = job.file();
      pack = job.pack();
      here = job.here();
      fates = new Fates(pack);
      transcript = new Transcript(pack, this::number);
    }

    /** An entry that was here before keeps its number. */
    private Long number(String series, UUID entryId) {
      return repository
          .number(series, entryId)
          .orElseGet(() -> numbers.next(viewer.operatorId(), series));
    }

    void file() {
      PackLines.read(file, this::line);
      write();
    }

    private void line(PackLines.PackLine line) {
      boolean files = fates.isFiled(line.kind(), line.json()) && !here.contains(line.recordId());
      if (files) {
        begin(line);
        try {
          rows.add(refiling.row(line.kind(), transcript.of(line)));
        } catch (IllegalArgumentException e) {
          throw PackFile.refused("Line " + line.seq() + ": " + e.getMessage() + ".");
        }
      }
      String by = pack.people().getOrDefault(line.recordedBy(), "not named");
      kept.add(new TakenRepository.Row(line, by, files));
      if (kept.size() >= AT_ONCE) {
        write();
      }
    }

    /** A requirement is known before the first of its revisions, after what it belongs to. */
    private void begin(PackLines.PackLine line) {
      if (!line.json().hasNonNull("requirement_id")) {
        return;
      }
      RequirementSheet sheet =
          pack.requirements().get(UUID.fromString(line.json().get("requirement_id").asText()));
      if (sheet != null && !isSaid(sheet, line.json())) {
        throw PackFile.refused(
            "Line " + line.seq() + " says whose a requirement is otherwise than its tables.");
      }
      if (sheet != null && begun.add(sheet.id())) {
        write();
        requirements.takeUp(viewer, List.of(sheet));
      }
    }

    /** Lines of before do not say it. */
    private static boolean isSaid(RequirementSheet sheet, JsonNode json) {
      return !json.hasNonNull("of_subject")
          || Objects.equals(word(sheet.programmeId()), json.path("of_programme_id").textValue())
              && Objects.equals(word(sheet.aircraftId()), json.path("of_aircraft_id").textValue())
              && Objects.equals(word(sheet.componentId()), json.path("of_component_id").textValue())
              && Objects.equals(sheet.partNumber(), json.path("of_part_number").textValue())
              && Objects.equals(sheet.subject(), json.path("of_subject").textValue());
    }

    private static String word(UUID id) {
      return id == null ? null : id.toString();
    }

    private void write() {
      if (!rows.isEmpty()) {
        ledger.file(act, rows);
      }
      repository.flushAndForget();
      repository.keep(viewer.operatorId(), packId, kept);
      rows.clear();
      kept.clear();
    }
  }

  /** What was not handed over is nothing to fit here. */
  void retire(Viewer viewer, Act act, Checked pack, Set<UUID> known) {
    List<Filed> rows = new ArrayList<>();
    for (ComponentHistory one :
        components.histories(viewer, pack.history(), View.EVERYTHING).values()) {
      if (one.placed() == null && !known.contains(one.sheet().id())) {
        ObjectNode event = JsonNodeFactory.instance.objectNode();
        event.put("component_id", one.sheet().id().toString());
        event.put("kind", "retired");
        event.put("whom", pack.fromName());
        event.put("why", "Not handed over: here for the history of " + pack.words() + " alone");
        event.put("reference", "");
        event.put("restarts", false);
        event.put("void", false);
        Filed row = refiling.row("component-event", event);
        row.happened(act.recordedAt(), viewer.dateOf(act.recordedAt()));
        rows.add(row);
      }
    }
    if (!rows.isEmpty()) {
      ledger.file(act, rows);
    }
  }
}
