package trestle.server.backup;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import trestle.ledger.MerkleFrontier;

/**
 * Backups that are not what they say. Most are sealed rightly, as somebody would who means harm;
 * each is refused with its reason before anything is asked of a database.
 */
class BackupFileTest {
  private static final UUID OPERATOR = UUID.fromString("0199d3a0-0000-7000-8000-000000000001");
  private static final String LEDGER = "operators/" + OPERATOR + "/ledger_entry.copy";
  private static final String PERSON = "installation/person.copy";
  private static final List<String> LINES = List.of("{\"kind\":\"a\\tb\"}", "{\"n\":2}", "{}");

  @TempDir Path directory;

  private final Map<String, byte[]> files = new LinkedHashMap<>();
  private String newestSchema = "028";
  private String root = root();
  private String personTable = "person";

  private static String root() {
    MerkleFrontier edge = MerkleFrontier.EMPTY;
    for (String line : LINES) {
      edge = edge.append(MerkleFrontier.leaf(line.getBytes(StandardCharsets.UTF_8)));
    }
    return HexFormat.of().formatHex(edge.root());
  }

  /** As COPY writes it: a backslash is written twice. */
  private static String copied(int seq, String json, String hashed) {
    String leaf =
        HexFormat.of().formatHex(MerkleFrontier.leaf(hashed.getBytes(StandardCharsets.UTF_8)));
    return "%d\t%s\t\\\\x%s\n".formatted(seq, json.replace("\\", "\\\\"), leaf);
  }

  private static String ledger() {
    StringBuilder all = new StringBuilder();
    for (int i = 0; i < LINES.size(); i++) {
      all.append(copied(i + 1, LINES.get(i), LINES.get(i)));
    }
    return all.toString();
  }

  private BackupFileTest with(String file, String content) {
    files.put(file, content.getBytes(StandardCharsets.UTF_8));
    return this;
  }

  private BackupFileTest whole() {
    return with(PERSON, "1\tA. Person\n2\tB. Person\n").with(LEDGER, ledger());
  }

  private Manifest manifest() {
    List<Manifest.Part> parts = new ArrayList<>();
    files.forEach(
        (file, content) -> {
          Measured measured = new Measured();
          try {
            measured.write(content, 0, content.length);
          } catch (IOException e) {
            throw new IllegalStateException(e);
          }
          boolean ofLedger = file.contains("ledger_entry");
          parts.add(
              new Manifest.Part(
                  file,
                  ofLedger ? "ledger_entry" : personTable,
                  ofLedger ? OPERATOR : null,
                  measured.rows(),
                  measured.bytes(),
                  measured.sha256Hex()));
        });
    return new Manifest(
        "of the tests",
        newestSchema,
        Instant.parse("2026-11-26T02:00:00Z"),
        null,
        List.of(
            new Manifest.Table(personTable, List.of("id", "name")),
            new Manifest.Table("ledger_entry", List.of("seq", "json", "leaf"))),
        List.of(new Manifest.Ledger(OPERATOR, "Tarn Air", LINES.size(), root)),
        parts);
  }

  private Path written() throws IOException {
    return written(manifest().text(), Map.of());
  }

  private Path written(String manifest, Map<String, byte[]> more) throws IOException {
    Path path = Files.createTempFile(directory, "crafted", ".zip");
    try (ZipOutputStream zip = new ZipOutputStream(Files.newOutputStream(path))) {
      zip.setComment(Seal.BLANK);
      Map<String, byte[]> all = new LinkedHashMap<>(files);
      all.putAll(more);
      all.put(Manifest.FILE, manifest.getBytes(StandardCharsets.UTF_8));
      for (Map.Entry<String, byte[]> file : all.entrySet()) {
        zip.putNextEntry(new ZipEntry(file.getKey()));
        zip.write(file.getValue());
        zip.closeEntry();
      }
    }
    Seal.put(path);
    return path;
  }

  /** There is no database here at all. */
  private void refused(Path path, String reason) {
    assertThatThrownBy(() -> restored(path))
        .isInstanceOf(BackupRefused.class)
        .hasMessageContaining(reason);
  }

  private static void restored(Path path) throws Exception {
    try (BackupFile file = BackupFile.open(path)) {
      new Restore(null, null, "028").whole(file, true);
    }
  }

  private static void checked(Path path) throws IOException {
    try (BackupFile file = BackupFile.open(path)) {
      file.check();
    }
  }

  @Test
  void aWholeOneIsFoundWhole() throws IOException {
    Path path = whole().written();
    assertThatCode(() -> checked(path)).doesNotThrowAnyException();
  }

  @Test
  void noByteCanChangeAndNoneCanBeMissing() throws IOException {
    byte[] right = Files.readAllBytes(whole().written());
    for (int at = 0; at < right.length; at++) {
      byte[] changed = right.clone();
      changed[at] ^= 0x20;
      refused(Files.write(directory.resolve("changed.zip"), changed), "is not as it was written");
    }
    for (int length = 0; length < right.length; length += 1 + right.length / 200) {
      Path cut = Files.write(directory.resolve("cut.zip"), Arrays.copyOf(right, length));
      refused(cut, "is not as it was written: it was cut short, changed, or is no backup");
    }
    refused(directory.resolve("none.zip"), "There is no file");
  }

  @Test
  void aNewerSchemaOrFormatIsLeftToANewerProgram() throws IOException {
    newestSchema = "029";
    refused(
        whole().written(),
        "It was written by a newer Trestle (of the tests, schema 029); this one knows schemas up to 028.");
    newestSchema = "28; drop table person";
    refused(written(), "Its manifest names no version of a schema.");
    newestSchema = "028";
    refused(
        written(manifest().text().replace("\"version\":1", "\"version\":2"), Map.of()),
        "It was written by a newer Trestle (of the tests). Restore it with that one");
    refused(written("{\"format\":\"other\"}", Map.of()), "It is not a backup of Trestle's.");
    refused(written("[", Map.of()), "Its manifest can't be read: is not well-formed JSON");
    refused(written("{\"format\":\"trestle-backup\",\"version\":1}", Map.of()), "\"program\"");
  }

  @Test
  void whatLeadsOutsideIsRefusedByName() throws IOException {
    whole();
    refused(
        written(manifest().text(), Map.of("../../outside.copy", new byte[] {1})),
        "It holds something that its manifest does not list: ../../outside.copy");
    with("../../outside.copy", "1\tA. Person\n");
    refused(written(), "Its manifest names a part that can't be one: ../../outside.copy");
  }

  @Test
  void namesThatAreNoNamesOfTablesNeverReachTheDatabase() throws IOException {
    personTable = "person; drop table person";
    refused(whole().written(), "names a table or column that can't be one");
  }

  @Test
  void whatExpandsToMoreThanIsStatedIsStoppedThere() throws IOException {
    whole();
    String manifest = manifest().text();
    files.put(PERSON, new byte[300 << 20]);
    refused(written(manifest, Map.of()), "It holds something that its manifest does not list");
    Path lying = written(manifest, Map.of());
    Files.write(lying, withStatedSize(Files.readAllBytes(lying), PERSON, 24));
    Seal.put(lying);
    refused(lying, "Its part installation/person.copy expands to more than is stated.");
  }

  /** Overwrites the unpacked size in the ZIP's directory. */
  private static byte[] withStatedSize(byte[] zip, String name, int size) {
    String text = new String(zip, StandardCharsets.ISO_8859_1);
    int header = text.lastIndexOf(name) - 46;
    assertThat(text.substring(header, header + 4)).isEqualTo("PK\1\2");
    for (int i = 0; i < 4; i++) {
      zip[header + 24 + i] = (byte) (size >> (8 * i));
    }
    return zip;
  }

  @Test
  void partsMustBeThoseOfTheManifest() throws IOException {
    whole();
    String manifest = manifest().text();
    with(PERSON, "1\tA. Person\n2\tC. Person\n");
    refused(written(manifest, Map.of()), "Its part " + PERSON + " is not the one");
    files.remove(PERSON);
    refused(written(manifest, Map.of()), "It does not hold every part that its manifest lists.");
  }

  @Test
  void aRewrittenLedgerIsNamedByItsFirstWrongLine() throws IOException {
    broken(
        all -> all.replace("{\"n\":2}", "{\"n\":3}"),
        "The ledger of Tarn Air is broken: the text of line 2 is not the one its hash was made from.");
    broken(
        all -> copied(1, "{\"x\":0}", "{\"x\":0}") + all.substring(all.indexOf('\n') + 1),
        "is not the one whose head is stated");
    broken(
        all -> all.substring(all.indexOf('\n') + 1), "is broken: line 1 is missing; 2 stands in");
    broken(all -> all.substring(0, all.lastIndexOf("3\t")), "its 2 lines come to the root");
    broken(all -> all + "4\n", "is broken: line 4 is cut short");
    whole();
    root = "0".repeat(64);
    refused(written(), "not " + root);
    files.remove(LEDGER);
    refused(written(), "The ledger of Tarn Air is missing.");
  }

  private void broken(UnaryOperator<String> change, String reason) throws IOException {
    with(LEDGER, change.apply(ledger()));
    refused(written(), reason);
  }
}
