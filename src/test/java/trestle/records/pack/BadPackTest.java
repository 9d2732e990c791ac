package trestle.records.pack;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.InstantSource;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import trestle.fleet.Hangar;
import trestle.ledger.Act;
import trestle.ledger.Ledger;
import trestle.ledger.Refiling;
import trestle.ledger.SignedText;
import trestle.ledger.SignedTexts;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.web.Walls;

/** Packs that are not what they say: each refused with the reason, and nothing filed. */
@QuarkusTest
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BadPackTest {
  @Inject RecordPacks packs;
  @Inject TakingIn takingIn;
  @Inject TakenPacks takenPacks;
  @Inject Seller seller;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Ledger ledger;
  @Inject Walls walls;
  @Inject SignedTexts signing;
  @Inject Hangar hangar;
  @Inject Refiling refiling;
  @Inject InstantSource clock;

  private Viewer buyer;
  private Map<String, byte[]> sound;
  private long before;

  @BeforeEach
  void aSoundPackAndABuyer() throws Exception {
    if (buyer == null) {
      buyer = company("bad-buyer").viewer(Role.OWNER);
      Seller.Sold sold = seller.sold();
      Path file = packs.made(sold.viewer(), PackSubject.aircraft(sold.aircraft()));
      sound = RecordPackTest.unzipped(file);
      Files.delete(file);
    }
    before = size();
  }

  @AfterEach
  void nothingWasFiled() throws Exception {
    assertThat(size()).isEqualTo(before);
    assertThat(takenPacks.all(buyer)).isEmpty();
  }

  @Test
  void aByteChangedInAnyFileIsNamed() throws IOException {
    for (String name : sound.keySet()) {
      Map<String, byte[]> changed = new LinkedHashMap<>(sound);
      byte[] bytes = sound.get(name).clone();
      bytes[bytes.length / 2] ^= 1;
      changed.put(name, bytes);
      String said = refusal(zipped(changed));
      if (name.startsWith("manifest")) {
        assertThat(said).containsIgnoringCase("manifest");
      } else if (!name.equals("ledger/head.txt")) {
        assertThat(said).contains("“" + name + "”", "changed afterwards");
      }
    }
  }

  @Test
  void aFileMissingOrTooManyIsNamed() throws IOException {
    Map<String, byte[]> less = new LinkedHashMap<>(sound);
    less.remove("csv/compliance.csv");
    assertThat(refusal(zipped(less))).contains("lacks the file “csv/compliance.csv”");
    Map<String, byte[]> more = new LinkedHashMap<>(sound);
    more.put("csv/extra.csv", "a,b\r\n".getBytes(UTF_8));
    assertThat(refusal(zipped(more))).contains("“csv/extra.csv”", "does not name");
  }

  @Test
  void aLineOrAProofOfAnotherOperatorLeadsNowhere() throws Exception {
    Company other = company("bad-other");
    Viewer them = other.viewer(Role.CONTROLLER);
    UUID component = hangar.engine(them, "X-1", clock.instant(), 3_600L, null);
    Path file = packs.made(them, PackSubject.component(component));
    Map<String, byte[]> others = RecordPackTest.unzipped(file);
    Files.delete(file);

    Map<String, byte[]> headOfOther = new LinkedHashMap<>(sound);
    headOfOther.put("ledger/head.txt", others.get("ledger/head.txt"));
    assertThat(refusal(zipped(signedAnew(headOfOther)))).contains("signed head is another");

    Map<String, byte[]> linesOfOther = new LinkedHashMap<>(sound);
    linesOfOther.put("ledger/lines.ndjson", others.get("ledger/lines.ndjson"));
    linesOfOther.put("ledger/proofs.ndjson", others.get("ledger/proofs.ndjson"));
    assertThat(refusal(zipped(signedAnew(linesOfOther)))).contains("another operator");

    Map<String, byte[]> changed = new LinkedHashMap<>(sound);
    String lines = new String(sound.get("ledger/lines.ndjson"), UTF_8);
    changed.put(
        "ledger/lines.ndjson",
        lines.replaceFirst("\\\\\"landings\\\\\":2", "\\\\\"landings\\\\\":9").getBytes(UTF_8));
    assertThat(new String(changed.get("ledger/lines.ndjson"), UTF_8)).isNotEqualTo(lines);
    assertThat(refusal(zipped(signedAnew(changed)))).contains("was changed: its hash is another");

    String[] proofs = new String(sound.get("ledger/proofs.ndjson"), UTF_8).split("\n");
    proofs[3] = proofs[3].replaceFirst("[0-9a-f]{8}", "00000000");
    Map<String, byte[]> proof = new LinkedHashMap<>(sound);
    proof.put("ledger/proofs.ndjson", (String.join("\n", proofs) + "\n").getBytes(UTF_8));
    assertThat(refusal(zipped(signedAnew(proof))))
        .contains("not in the ledger that the head signs");
  }

  @Test
  void aZipCutShortIsNoZip() throws IOException {
    byte[] whole = Files.readAllBytes(zipped(sound));
    for (int part : new int[] {0, 10, whole.length / 2, whole.length - 30}) {
      Path cut = Files.createTempFile("cut", ".zip");
      Files.write(cut, Arrays.copyOf(whole, part));
      assertThat(refusal(cut)).contains("cut short or damaged");
    }
  }

  @Test
  void aFileThatGrowsWithoutEndIsNotUnpacked() throws IOException {
    Path bomb = Files.createTempFile("bomb", ".zip");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(bomb))) {
      zip.putNextEntry(new ZipEntry("manifest.json"));
      byte[] zeros = new byte[1 << 20];
      for (int i = 0; i < 64; i++) {
        zip.write(zeros);
      }
    }
    assertThat(refusal(bomb)).contains("grows beyond", "not unpacked");

    // One that lies about its size: the central directory says a hundred bytes.
    byte[] bytes = Files.readAllBytes(zippedOne("README.txt", new byte[4_000]));
    patchSize(bytes, 4_000, 100);
    Path liar = Files.createTempFile("liar", ".zip");
    Files.write(liar, bytes);
    assertThatThrownBy(
            () -> {
              try (PackFile pack = PackFile.open(liar)) {
                pack.bytes("README.txt", 1 << 20);
              }
            })
        .isInstanceOf(Refusal.class);
  }

  @Test
  void tooManyFilesAreNotLookedAt() throws IOException {
    Path many = Files.createTempFile("many", ".zip");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(many))) {
      for (int i = 0; i <= PackFile.MOST_FILES; i++) {
        zip.putNextEntry(new ZipEntry("csv/a" + i + ".csv"));
      }
    }
    assertThat(refusal(many)).contains("at most 5000");
  }

  @Test
  void aNameThatLeadsOutsideIsRefused() throws IOException {
    for (String name :
        List.of("../outside.txt", "/etc/outside", "csv/../../x.csv", "C:\\x", "csv\\x.csv")) {
      Map<String, byte[]> files = new LinkedHashMap<>(sound);
      files.put(name, new byte[] {1});
      assertThat(refusal(zipped(files))).contains("lead outside");
    }
  }

  @Test
  void aNewerVersionIsAskedToWait() throws Exception {
    Map<String, byte[]> newer = new LinkedHashMap<>(sound);
    ObjectNode manifest = (ObjectNode) new ObjectMapper().readTree(sound.get("manifest.json"));
    manifest.put("version", 2);
    newer.put("manifest.json", manifest.toPrettyString().getBytes(UTF_8));
    assertThat(refusal(zipped(newer))).contains("version 2", "up to version 1");

    Map<String, byte[]> kind = new LinkedHashMap<>(sound);
    String lines = new String(sound.get("ledger/lines.ndjson"), UTF_8);
    kind.put(
        "ledger/lines.ndjson",
        lines.replaceFirst("\"version\":1", "\"version\":9").getBytes(UTF_8));
    assertThat(refusal(zipped(signedAnew(kind)))).contains("a version that this program does not");
  }

  @Test
  void aLineIsOfTheKindAndVersionThatItSaysItself() throws Exception {
    ObjectMapper mapper = new ObjectMapper();
    String[] lines = new String(sound.get("ledger/lines.ndjson"), UTF_8).split("\n");
    Map<String, Integer> versions = new LinkedHashMap<>();
    for (String line : lines) {
      JsonNode read = mapper.readTree(line);
      versions.put(read.get("kind").asText(), read.get("version").asInt());
    }
    assertThat(versions.values()).contains(1).anyMatch(version -> version > 1);
    Set<String> seen = new HashSet<>();
    for (int i = 0; i < lines.length; i++) {
      ObjectNode line = (ObjectNode) mapper.readTree(lines[i]);
      String kind = line.get("kind").asText();
      int version = line.get("version").asInt();
      if (seen.add(kind)) {
        for (String other : versions.keySet()) {
          if (!other.equals(kind) && versions.get(other) >= version) {
            assertThat(refusal(withLine(lines, i, line.deepCopy().put("kind", other))))
                .as("%s as %s", kind, other)
                .contains("(" + other + ") says itself that it is of another kind or version");
          }
        }
        if (version > 1) {
          assertThat(refusal(withLine(lines, i, line.deepCopy().put("version", version - 1))))
              .contains("(" + kind + ") says itself");
          ObjectNode older = (ObjectNode) mapper.readTree(line.get("json").asText());
          if (older.remove("ledger_kind") != null) {
            older.put("version", 1);
            assertThat(refiling.saysItIs(older, kind, 1)).as("%s of before", kind).isTrue();
            assertThat(refiling.saysItIs(older, kind, version)).isFalse();
          }
        }
      }
    }
  }

  private Path withLine(String[] lines, int at, ObjectNode line) throws Exception {
    String[] changed = lines.clone();
    changed[at] = line.toString();
    Map<String, byte[]> files = new LinkedHashMap<>(sound);
    files.put("ledger/lines.ndjson", (String.join("\n", changed) + "\n").getBytes(UTF_8));
    return zipped(signedAnew(files));
  }

  @Test
  void whatIsNoPackIsRefused() throws IOException {
    assertThat(refusal(zippedOne("README.txt", new byte[] {1}))).contains("lacks the file");
    assertThat(refusal(zippedOne("manifest.json", "{}".getBytes(UTF_8))))
        .contains("no record pack");
  }

  private String refusal(Path file) {
    try {
      takingIn.uploaded(buyer, file);
    } catch (Refusal refusal) {
      return refusal.reasons().get(0).sentence();
    } finally {
      file.toFile().delete();
    }
    throw new AssertionError("It was not refused");
  }

  /** The manifest as its files now are, signed with the right key: proofs alone can tell. */
  private Map<String, byte[]> signedAnew(Map<String, byte[]> files) throws Exception {
    ObjectNode manifest = (ObjectNode) new ObjectMapper().readTree(files.get("manifest.json"));
    for (JsonNode file : manifest.get("files")) {
      byte[] bytes = files.get(file.get("name").asText());
      ((ObjectNode) file).put("sha256", PackWriter.sha256(bytes)).put("bytes", bytes.length);
    }
    byte[] text = manifest.toPrettyString().getBytes(UTF_8);
    files.put("manifest.json", text);
    SignedText before = SignedText.parse(new String(files.get("manifest.sig"), UTF_8));
    files.put(
        "manifest.sig",
        signed(seller.sold().viewer(), before.tag(), PackWriter.sha256(text)).getBytes(UTF_8));
    return files;
  }

  private String signed(Viewer viewer, String tag, String what) throws Exception {
    Act act = new Act(viewer.operatorId(), viewer.personId(), clock.instant());
    return walls.reading(viewer, () -> signing.sign(act, tag, what).text());
  }

  private static Path zippedOne(String name, byte[] bytes) throws IOException {
    return zipped(Map.of(name, bytes));
  }

  private static Path zipped(Map<String, byte[]> files) throws IOException {
    Path file = Files.createTempFile("bad", ".zip");
    try (OutputStream out = Files.newOutputStream(file);
        ZipOutputStream zip = new ZipOutputStream(out)) {
      for (Map.Entry<String, byte[]> one : files.entrySet()) {
        zip.putNextEntry(new ZipEntry(one.getKey()));
        zip.write(one.getValue());
      }
    }
    return file;
  }

  /** Little-endian, in the central directory, which stands last. */
  private static void patchSize(byte[] zip, int from, int to) {
    for (int at = zip.length - 4; at > 0; at--) {
      boolean here = (zip[at] & 0xff) == (from & 0xff) && (zip[at + 1] & 0xff) == from >> 8;
      if (here && zip[at + 2] == 0 && zip[at + 3] == 0) {
        zip[at] = (byte) to;
        zip[at + 1] = 0;
        return;
      }
    }
    throw new AssertionError("No size found");
  }

  private long size() throws Exception {
    return walls.reading(buyer, () -> ledger.head(buyer.operatorId()).size());
  }

  private Company company(String name) {
    return Company.founded(
        name + "-" + UUID.randomUUID().toString().substring(0, 8), operators, members);
  }
}
