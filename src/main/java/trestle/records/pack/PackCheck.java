package trestle.records.pack;

import static java.nio.charset.StandardCharsets.UTF_8;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.InputStream;
import java.security.MessageDigest;
import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.UUID;
import org.apache.commons.csv.CSVRecord;
import trestle.ledger.Inclusion;
import trestle.ledger.MerkleFrontier;
import trestle.ledger.Refiling;
import trestle.ledger.SignedHead;
import trestle.ledger.SignedText;

/**
 * Checks a pack before anything of it is used: each file against the manifest, the manifest against
 * its signature, each line against its hash and its proof, and those against the signed head. It
 * asks the database nothing.
 */
@ApplicationScoped
class PackCheck {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final long MOST_OF_MANIFEST = 4L << 20;

  @Inject Refiling refiling;

  /**
   * @throws trestle.web.Refusal with what does not agree
   */
  Checked check(PackFile pack) {
    byte[] bytes = pack.bytes(PackNames.MANIFEST, MOST_OF_MANIFEST);
    JsonNode manifest = manifest(bytes);
    UUID operator = id(manifest.at("/operator/id"), "operator");
    SignedText signature = signature(pack, bytes, operator);
    SignedHead head = head(pack, manifest, operator, signature);
    files(pack, manifest);
    Map<String, Set<UUID>> recordIds = new HashMap<>();
    Set<String> inspected = new HashSet<>();
    lines(pack, head, recordIds, inspected);
    Map<String, List<String>> files = attachments(pack);
    Map<UUID, String> people = new HashMap<>();
    ContextTables.table(pack, PackNames.PEOPLE)
        .forEach(
            row ->
                people.put(ContextTables.id(row.get("id")), ContextTables.name(row.get("name"))));
    return new Checked(
        new PackSubject(
            PackSubject.Kind.parse(manifest.at("/subject/kind").asText()),
            id(manifest.at("/subject/id"), "subject")),
        ContextTables.name(manifest.at("/subject/words").asText()),
        operator,
        ContextTables.name(manifest.at("/operator/name").asText()),
        manifest.get("version").asInt(),
        PackWriter.sha256(bytes),
        head,
        manifest.at("/subject/fitted").asBoolean(),
        ContextTables.names(pack),
        ContextTables.ids(pack, PackNames.COMPONENTS, "subject"),
        ContextTables.ids(pack, PackNames.COMPONENTS, "history"),
        ContextTables.ids(pack, PackNames.AIRCRAFT, "history"),
        people,
        ContextTables.requirements(pack),
        ContextTables.table(pack, PackNames.TOTALS).stream()
            .map(row -> PackTotals.Total.of(row.toList()))
            .toList(),
        files,
        recordIds,
        inspected);
  }

  private static JsonNode manifest(byte[] bytes) {
    JsonNode manifest;
    try {
      manifest = JSON.readTree(bytes);
    } catch (IOException e) {
      throw PackFile.refused("Its manifest can’t be read: it was damaged on its way.");
    }
    if (!manifest.path("format").asText().equals(PackNames.FORMAT)) {
      throw PackFile.refused("It is no record pack: its manifest says another format.");
    }
    int version = manifest.path("version").asInt();
    if (version > PackNames.VERSION) {
      throw PackFile.refused(
          "It is written in version "
              + version
              + " of the format; this program reads up to version "
              + PackNames.VERSION
              + ". Bring this program up to date first.");
    }
    if (version < 1) {
      throw PackFile.refused("Its manifest says no version of the format.");
    }
    return manifest;
  }

  private static SignedText signature(PackFile pack, byte[] manifest, UUID operator) {
    SignedText signature;
    try {
      signature =
          SignedText.parse(new String(pack.bytes(PackNames.MANIFEST_SIGNATURE, 4096), UTF_8));
    } catch (IllegalArgumentException e) {
      throw PackFile.refused("The signature over its manifest can’t be read.");
    }
    boolean over =
        signature.tag().equals(PackNames.SIGNATURE)
            && signature.what().equals(PackWriter.sha256(manifest))
            && signature.operatorId().equals(operator)
            && signature.verify();
    if (!over) {
      throw PackFile.refused(
          "The signature over its manifest does not hold: the manifest was changed after it was"
              + " signed.");
    }
    return signature;
  }

  private static SignedHead head(
      PackFile pack, JsonNode manifest, UUID operator, SignedText signature) {
    String text = new String(pack.bytes(PackNames.HEAD, 4096), UTF_8).strip();
    SignedHead head;
    try {
      head = SignedHead.parse(text);
    } catch (IllegalArgumentException e) {
      throw PackFile.refused("Its signed head can’t be read. " + e.getMessage());
    }
    if (!head.operatorId().equals(operator)
        || !manifest.path("head").asText().equals(text)
        || !Arrays.equals(head.publicKey(), signature.publicKey())) {
      throw PackFile.refused(
          "Its signed head is another operator’s, or another than its manifest’s.");
    }
    if (!head.verify()) {
      throw PackFile.refused("The signature of its head does not hold.");
    }
    return head;
  }

  private static void files(PackFile pack, JsonNode manifest) {
    Set<String> named = new TreeSet<>(Set.of(PackNames.MANIFEST, PackNames.MANIFEST_SIGNATURE));
    for (JsonNode file : manifest.path("files")) {
      String name = file.path("name").asText();
      named.add(name);
      if (!pack.names().contains(name)) {
        throw PackFile.refused("It lacks the file “" + name + "” that its manifest names.");
      }
      if (!sha256(pack, name).equals(file.path("sha256").asText())) {
        throw PackFile.refused(
            "Its file “" + name + "” is not the one that was signed: it was changed afterwards.");
      }
    }
    for (String name : pack.names()) {
      if (!named.contains(name)) {
        throw PackFile.refused("It holds “" + name + "”, which its manifest does not name.");
      }
    }
  }

  private static String sha256(PackFile pack, String name) {
    MessageDigest digest = PackWriter.sha256();
    byte[] some = new byte[1 << 16];
    try (InputStream in = pack.read(name)) {
      for (int got = in.read(some); got > 0; got = in.read(some)) {
        digest.update(some, 0, got);
      }
    } catch (IOException e) {
      throw PackFile.damaged(name);
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  private void lines(
      PackFile pack, SignedHead head, Map<String, Set<UUID>> recordIds, Set<String> inspected) {
    long[] last = {0};
    PackLines.read(
        pack,
        line -> {
          String which = "Line " + line.seq() + " (" + line.kind() + ")";
          known(line, which);
          boolean itself =
              Arrays.equals(MerkleFrontier.leaf(line.text().getBytes(UTF_8)), line.leaf());
          if (!itself) {
            throw PackFile.refused(which + " was changed: its hash is another.");
          }
          JsonNode json = line.json();
          boolean same =
              json.path("operator_id").asText().equals(head.operatorId().toString())
                  && json.path("ledger_seq").asLong() == line.seq()
                  && json.path("id").asText().equals(line.recordId().toString())
                  && json.path("recorded_by").asText().equals(line.recordedBy().toString())
                  && json.path("recorded_at").asText().equals(line.recordedAt().toString());
          if (!refiling.saysItIs(json, line.kind(), line.version())) {
            throw PackFile.refused(which + " says itself that it is of another kind or version.");
          }
          if (!same || line.seq() <= last[0]) {
            throw PackFile.refused(
                which + " says another operator, place or record than its proof is for.");
          }
          last[0] = line.seq();
          if (!leads(line, head)) {
            throw PackFile.refused(which + " is not in the ledger that the head signs.");
          }
          recordIds.computeIfAbsent(line.kind(), kind -> new HashSet<>()).add(line.recordId());
          if (line.kind().equals("event-inspection")) {
            inspected.add(json.path("event_entry_id").asText());
          }
        });
    if (recordIds.isEmpty()) {
      throw PackFile.refused("It holds no record.");
    }
  }

  private void known(PackLines.PackLine line, String which) {
    int version = refiling.version(line.kind()).orElse(0);
    if (line.version() > version) {
      throw PackFile.refused(
          which
              + " is of a kind or a version that this program does not know. Bring it up to date"
              + " first.");
    }
  }

  private static boolean leads(PackLines.PackLine line, SignedHead head) {
    try {
      Inclusion proof = new Inclusion(line.seq(), head.size(), line.leaf(), line.path());
      return Arrays.equals(proof.root(), head.root());
    } catch (IllegalArgumentException e) {
      return false;
    }
  }

  private static Map<String, List<String>> attachments(PackFile pack) {
    Map<String, List<String>> files = new HashMap<>();
    for (CSVRecord row : ContextTables.table(pack, PackNames.ATTACHMENTS)) {
      files.put(
          row.get("sha256"), List.of(row.get("kind"), row.get("name"), row.get("media_type")));
    }
    for (String name : pack.names()) {
      if (name.startsWith("attachments/")) {
        String sha256 = name.substring("attachments/".length(), name.lastIndexOf('.'));
        if (!files.containsKey(sha256) || !sha256(pack, name).equals(sha256)) {
          throw PackFile.refused("Its file “" + name + "” is not the one that it is named after.");
        }
      }
    }
    return files;
  }

  private static UUID id(JsonNode text, String what) {
    try {
      return UUID.fromString(text.asText());
    } catch (IllegalArgumentException e) {
      throw PackFile.refused("Its manifest names no " + what + ".");
    }
  }
}
