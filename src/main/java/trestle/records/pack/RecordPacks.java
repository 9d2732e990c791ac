package trestle.records.pack;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.UUID;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.formats.Pdf;
import trestle.ledger.Act;
import trestle.ledger.Extracts;
import trestle.ledger.Heads;
import trestle.ledger.Inclusion;
import trestle.ledger.Ledger;
import trestle.ledger.Line;
import trestle.ledger.Proofs;
import trestle.ledger.SignedHead;
import trestle.ledger.SignedTexts;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.web.Reading;
import trestle.web.Viewer;

/**
 * Makes the record pack of an aircraft or a component (docs/record-pack.md): what the ledger holds
 * of it, with proofs, tables and papers that can be read without this program. The same head gives
 * the same bytes. Memory stays small: lines are read a few hundred at a time.
 */
@ApplicationScoped
public class RecordPacks {
  private static final HexFormat HEX = HexFormat.of();

  /** What a line takes in the pack, with its proof and its row, about. */
  private static final long BYTES_A_LINE = 1_100;

  @Inject Selecting selecting;
  @Inject Summaries summaries;
  @Inject PackTables tables;
  @Inject Attachments attachments;
  @Inject Extracts extracts;
  @Inject Ledger ledger;
  @Inject Heads heads;
  @Inject Proofs proofs;
  @Inject SignedTexts signing;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Members members;
  @Inject PackTemplates templates;

  /**
   * What a pack would hold now.
   *
   * @param kinds how many lines of each kind
   * @param bytes about how large the ZIP would be
   */
  record Contents(
      PackSubject subject,
      String words,
      long size,
      SortedMap<String, Integer> kinds,
      int attachments,
      int flownOn,
      long bytes) {

    public int lines() {
      return kinds.values().stream().mapToInt(Integer::intValue).sum();
    }
  }

  /** The head that a pack is made for, and the moment of the last line that it counts. */
  private record At(SignedHead head, Instant moment, LocalDate day) {
    View view() {
      return new View(View.EVERYTHING.upTo(), head.size());
    }
  }

  @Reading
  Contents contents(Viewer viewer, PackSubject subject) {
    long size = ledger.head(viewer.operatorId()).size();
    View view = new View(View.EVERYTHING.upTo(), size);
    String words = words(viewer, subject, view);
    Selection selection = selecting.of(viewer, subject, size);
    TreeMap<String, Integer> kinds = new TreeMap<>();
    selection.lines().values().forEach(kind -> kinds.merge(kind, 1, Integer::sum));
    long files =
        attachments.sizes(viewer, selection.attachments()).values().stream()
            .mapToLong(Long::longValue)
            .sum();
    return new Contents(
        subject,
        words,
        size,
        kinds,
        selection.attachments().size(),
        selection.flownOn().size(),
        files + selection.lines().size() * BYTES_A_LINE + 100_000);
  }

  /** "QX-SOR", or "Engine, part PN-1, serial 77". */
  @Reading
  String words(Viewer viewer, PackSubject subject) {
    return words(viewer, subject, View.EVERYTHING);
  }

  private String words(Viewer viewer, PackSubject subject, View view) {
    return subject.isAircraft()
        ? fleet.sheet(viewer, subject.id(), view).registration()
        : components.history(viewer, subject.id(), view).sheet().words();
  }

  /** The pack in a file of its own, which whoever asked removes. */
  @Reading
  Path made(Viewer viewer, PackSubject subject) {
    try {
      Path file = Files.createTempFile("record-pack-", ".zip");
      try (OutputStream out = Files.newOutputStream(file)) {
        write(viewer, subject, out);
        return file;
      } catch (IOException | RuntimeException e) {
        Files.deleteIfExists(file);
        throw e;
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void write(Viewer viewer, PackSubject subject, OutputStream out) throws IOException {
    At at = head(viewer);
    String words = words(viewer, subject, at.view());
    Selection selection = selecting.of(viewer, subject, at.head().size());
    try (PackWriter pack = new PackWriter(out, at.moment())) {
      pack.file(PackNames.README, readme(viewer, words, at));
      tables.write(viewer, selection, at.view(), pack);
      lines(viewer, selection, at, pack);
      String contents = contentsHash(pack.written());
      byte[] summary =
          Pdf.of(templates.summary(summary(viewer, subject, at, contents)), at.moment());
      pack.file(PackNames.SUMMARY, file -> file.write(summary));
      manifest(viewer, selection, words, at, pack);
    }
  }

  /** Signed as at the ledger's last line, so that the same ledger gives the same head. */
  private At head(Viewer viewer) {
    UUID operator = viewer.operatorId();
    SignedHead head = null;
    Instant moment = null;
    for (long size = ledger.head(operator).size(); head == null || head.size() != size; ) {
      size = head == null ? size : head.size();
      moment = extracts.at(operator, List.of(size)).get(0).recordedAt();
      head = heads.signed(new Act(operator, viewer.personId(), moment));
    }
    return new At(head, moment, viewer.dateOf(moment));
  }

  private void lines(Viewer viewer, Selection selection, At at, PackWriter pack)
      throws IOException {
    UUID operator = viewer.operatorId();
    List<Long> seqs = List.copyOf(selection.lines().keySet());
    Set<UUID> people = new TreeSet<>();
    pack.file(PackNames.HEAD, at.head().text() + "\n");
    pack.file(
        PackNames.LINES,
        out -> {
          for (List<Long> some : PackTables.portions(seqs)) {
            for (Line line : extracts.at(operator, some)) {
              people.add(line.recordedBy());
              out.write((line(line) + "\n").getBytes(UTF_8));
            }
          }
        });
    pack.file(
        PackNames.PROOFS,
        out -> {
          for (List<Long> some : PackTables.portions(seqs)) {
            for (Inclusion proof : proofs.inclusions(operator, some, at.head().size())) {
              out.write((proof(proof) + "\n").getBytes(UTF_8));
            }
          }
        });
    pack.file(PackNames.PEOPLE, PackTables.csv(people(viewer, people)));
  }

  private List<List<String>> people(Viewer viewer, Collection<UUID> ids) {
    Map<UUID, String> names = new HashMap<>(members.names(viewer));
    List<List<String>> rows = new ArrayList<>();
    rows.add(List.of("id", "name"));
    ids.forEach(id -> rows.add(List.of(id.toString(), names.getOrDefault(id, "not a member"))));
    return rows;
  }

  private static String line(Line line) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("seq", line.seq());
    json.put("kind", line.kind());
    json.put("version", line.kindVersion());
    json.put("record", line.recordId().toString());
    json.put("recorded_at", line.recordedAt().toString());
    json.put("recorded_by", line.recordedBy().toString());
    if (line.aircraftId() != null) {
      json.put("aircraft", line.aircraftId().toString());
    }
    json.put("leaf", HEX.formatHex(line.leaf()));
    json.put("json", line.json());
    return json.toString();
  }

  private static String proof(Inclusion proof) {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("seq", proof.seq());
    ArrayNode path = json.putArray("path");
    proof.path().forEach(hash -> path.add(HEX.formatHex(hash)));
    return json.toString();
  }

  private PackSummary summary(Viewer viewer, PackSubject subject, At at, String contents) {
    // Not the day of asking: what the ledger says does not change with the calendar.
    View view = new View(at.day(), at.head().size());
    PackSummary bare = summaries.of(viewer, subject, view);
    return new PackSummary(
        bare.title(),
        bare.operator(),
        bare.asAt(),
        bare.law(),
        bare.parts(),
        at.head().size(),
        at.head().text(),
        contents);
  }

  /** SHA-256 over one line "hash, two spaces, name" a file, in order of name. */
  static String contentsHash(List<PackWriter.Written> files) {
    StringBuilder all = new StringBuilder();
    files.stream()
        .filter(file -> file.name().contains("/"))
        .sorted(Comparator.comparing(PackWriter.Written::name))
        .forEach(file -> all.append(file.sha256()).append("  ").append(file.name()).append('\n'));
    return PackWriter.sha256(all.toString().getBytes(UTF_8));
  }

  private void manifest(Viewer viewer, Selection selection, String words, At at, PackWriter pack)
      throws IOException {
    ObjectNode json = JsonNodeFactory.instance.objectNode();
    json.put("format", PackNames.FORMAT);
    json.put("version", PackNames.VERSION);
    ObjectNode operator = json.putObject("operator");
    operator.put("id", viewer.operatorId().toString());
    operator.put("name", viewer.operatorName());
    operator.put("time_zone", viewer.zone().getId());
    ObjectNode subject = json.putObject("subject");
    subject.put("kind", selection.subject().kind().word());
    subject.put("id", selection.subject().id().toString());
    subject.put("words", words);
    subject.put("fitted", isFitted(viewer, selection, at.view()));
    json.put("head", at.head().text());
    json.put("lines", selection.lines().size());
    json.put("contents", contentsHash(pack.written()));
    ArrayNode files = json.putArray("files");
    pack.written().stream()
        .sorted(Comparator.comparing(PackWriter.Written::name))
        .forEach(
            file ->
                files
                    .addObject()
                    .put("name", file.name())
                    .put("bytes", file.bytes())
                    .put("sha256", file.sha256()));
    String text = json.toPrettyString() + "\n";
    pack.file(PackNames.MANIFEST, text);
    Act act = new Act(viewer.operatorId(), viewer.personId(), at.moment());
    String sha256 = PackWriter.sha256(text.getBytes(UTF_8));
    pack.file(
        PackNames.MANIFEST_SIGNATURE, signing.sign(act, PackNames.SIGNATURE, sha256).text() + "\n");
  }

  private boolean isFitted(Viewer viewer, Selection selection, View view) {
    return !selection.subject().isAircraft()
        && components.history(viewer, selection.subject().id(), view).placed() != null;
  }

  private static String readme(Viewer viewer, String words, At at) throws IOException {
    try (InputStream in = RecordPacks.class.getResourceAsStream("/record-pack/README.txt")) {
      return new String(in.readAllBytes(), UTF_8)
          .replace("{subject}", words)
          .replace("{operator}", viewer.operatorName())
          .replace("{moment}", at.head().at().toString())
          .replace("{size}", Long.toString(at.head().size()));
    }
  }
}
