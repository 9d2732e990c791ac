package trestle.records;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.formats.CanonicalJson;
import trestle.ledger.History;
import trestle.ledger.History.Place;
import trestle.ledger.Line;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Viewer;

/** The operator's ledger in words, line by line; each page in a constant number of statements. */
@ApplicationScoped
class Histories {
  static final int LINES_A_PAGE = 50;

  @Inject History ledger;
  @Inject Members members;
  @Inject Fleet fleet;

  /**
   * One line.
   *
   * @param corrects the record that it puts right, or null
   * @param correctedBy the record that puts it right, or null
   * @param page where the record is shown, or null
   */
  record Entry(
      UUID id,
      long seq,
      String kind,
      String says,
      String by,
      String at,
      String reason,
      UUID aircraftId,
      String registration,
      String page,
      Place corrects,
      Place correctedBy,
      boolean takesAway) {

    public String link() {
      return "/records/" + id;
    }

    public boolean isReplaced() {
      return correctedBy != null;
    }
  }

  /**
   * @param earlier the sequence before which the next page begins, or null on the last
   */
  record Page(List<Entry> entries, Long earlier) {}

  /**
   * @param changed whether it differs from the version before
   */
  record Fact(String name, String value, boolean changed) {
    private static final int SHOWN = 300;
    private static final int BEGINNING = 80;

    /** Whether only its beginning is shown until somebody asks for the rest. */
    public boolean isLong() {
      return value.length() > SHOWN;
    }

    public String beginning() {
      return value.substring(0, BEGINNING).strip() + "…";
    }
  }

  /** A signature that stands under a record. */
  record Signed(String by, String statement, String link) {}

  /** One filed row of a record. */
  record Version(Entry entry, List<Fact> facts, List<Signed> signatures) {}

  /**
   * A record with all that corrects it, the first first.
   *
   * @param correction where it is put right, or null where that is said otherwise
   * @param how a mistake in one is put right
   */
  record Sheet(
      RecordKind kind, Entry asked, List<Version> versions, String correction, String how) {
    public Version current() {
      return versions.get(versions.size() - 1);
    }
  }

  /**
   * Lines before a sequence, the newest first.
   *
   * @param aircraftId of one aircraft, or null for all
   * @param before null for the newest
   */
  @Reading
  public Page page(Viewer viewer, UUID aircraftId, Long before) {
    List<Line> lines =
        ledger.before(
            viewer.operatorId(),
            aircraftId,
            before == null ? Long.MAX_VALUE : before,
            LINES_A_PAGE + 1);
    List<Line> shown = lines.subList(0, Math.min(LINES_A_PAGE, lines.size()));
    Long earlier = lines.size() > shown.size() ? shown.get(shown.size() - 1).seq() : null;
    return new Page(entries(viewer, shown), earlier);
  }

  /**
   * A record of whatever kind.
   *
   * @throws NotHere when the operator has no such record
   */
  @Reading
  public Sheet one(Viewer viewer, UUID recordId) {
    Line line = line(viewer, recordId);
    List<Line> rows = ledger.versions(viewer.operatorId(), line);
    List<Entry> entries = entries(viewer, rows);
    Map<String, List<Signed>> signed = new HashMap<>();
    for (Line signature : ledger.signaturesOf(viewer.operatorId(), rows)) {
      JsonNode json = CanonicalJson.parse(signature.json());
      signed
          .computeIfAbsent(json.path("signs_record").asText(), id -> new ArrayList<>())
          .add(
              new Signed(
                  json.path("person_name").asText(),
                  json.path("statement").asText(),
                  "/signatures/" + signature.recordId()));
    }
    RecordWords words = words(viewer);
    List<Version> versions = new ArrayList<>();
    Map<String, String> before = Map.of();
    for (int i = 0; i < rows.size(); i++) {
      Map<String, String> facts = words.facts(CanonicalJson.parse(rows.get(i).json()));
      versions.add(
          new Version(
              entries.get(i),
              changed(facts, before, i > 0),
              signed.getOrDefault(rows.get(i).recordId().toString(), List.of())));
      before = facts;
    }
    RecordKind kind = RecordKinds.of(line.kind());
    JsonNode current = CanonicalJson.parse(rows.get(rows.size() - 1).json());
    Entry asked =
        entries.stream().filter(entry -> entry.id().equals(recordId)).findFirst().orElseThrow();
    boolean gone = words.takesAway(current);
    return new Sheet(kind, asked, versions, gone ? null : kind.correctionOf(current), kind.how());
  }

  /**
   * A record's line.
   *
   * @throws NotHere when the operator has no such record
   */
  Line line(Viewer viewer, UUID recordId) {
    return ledger
        .ofRecord(viewer.operatorId(), recordId)
        .orElseThrow(() -> new NotHere("There is no such record here."));
  }

  /** Lines in words, in the order given. */
  @Reading
  public List<Entry> entries(Viewer viewer, List<Line> lines) {
    Map<UUID, Place> corrected = ledger.corrected(viewer.operatorId(), lines);
    Map<UUID, Place> corrections = ledger.corrections(viewer.operatorId(), lines);
    RecordWords words = words(viewer);
    return lines.stream().map(line -> entry(line, words, corrected, corrections)).toList();
  }

  private static Entry entry(
      Line line, RecordWords words, Map<UUID, Place> corrected, Map<UUID, Place> corrections) {
    JsonNode json = CanonicalJson.parse(line.json());
    RecordKind kind = RecordKinds.of(line.kind());
    return new Entry(
        line.recordId(),
        line.seq(),
        kind.words(),
        words.says(kind, json),
        words.person(line.recordedBy()),
        words.moment(line.recordedAt()),
        json.path("reason").asText(""),
        line.aircraftId(),
        words.registration(line.aircraftId()),
        kind.pageOf(json),
        corrected.get(line.recordId()),
        corrections.get(line.recordId()),
        words.takesAway(json));
  }

  private static List<Fact> changed(
      Map<String, String> facts, Map<String, String> before, boolean compared) {
    Map<String, String> all = new TreeMap<>(facts);
    before.keySet().forEach(name -> all.putIfAbsent(name, "nothing"));
    return all.entrySet().stream()
        .map(
            fact ->
                new Fact(
                    fact.getKey(),
                    fact.getValue(),
                    compared && !fact.getValue().equals(before.get(fact.getKey()))))
        .toList();
  }

  private RecordWords words(Viewer viewer) {
    Map<UUID, String> registrations =
        fleet.sheets(viewer, View.EVERYTHING).stream()
            .collect(Collectors.toMap(AircraftSheet::id, AircraftSheet::registration));
    return new RecordWords(members.names(viewer), registrations, viewer.zone());
  }
}
