package trestle.server.backup;

import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;

/**
 * A backup to be taken back. Nothing of it is believed before {@link #check()} has read all of it;
 * nothing of it is ever unpacked to the disk, and no name in it leads anywhere.
 */
public final class BackupFile implements Closeable {
  private static final int BUFFER = 1 << 16;
  private static final int LARGEST_MANIFEST = 64 << 20;
  private static final Pattern NAME = Pattern.compile("[a-z][a-z0-9_]{0,62}");
  private static final Pattern PART =
      Pattern.compile("(installation|operators/[0-9a-f-]{36})/[a-z][a-z0-9_]{0,62}\\.copy");

  private final Path path;
  private final ZipFile zip;
  private final Manifest manifest;

  private BackupFile(Path path, ZipFile zip, Manifest manifest) {
    this.path = path;
    this.zip = zip;
    this.manifest = manifest;
  }

  /**
   * @throws BackupRefused when it is not, byte for byte, what a Trestle wrote
   */
  public static BackupFile open(Path path) throws IOException {
    if (!Files.isRegularFile(path) || !Files.isReadable(path)) {
      throw new BackupRefused("There is no file %s that can be read.".formatted(path));
    }
    try {
      if (!Seal.holds(path)) {
        throw new BackupRefused(
            "%s is not as it was written: it was cut short, changed, or is no backup of Trestle's."
                .formatted(path));
      }
      ZipFile zip = new ZipFile(path.toFile());
      try {
        return new BackupFile(path, zip, manifest(zip));
      } catch (BackupRefused | IOException e) {
        zip.close();
        throw e;
      }
    } catch (ZipException e) {
      throw new BackupRefused("%s is no backup of Trestle's: %s.".formatted(path, e.getMessage()));
    }
  }

  private static Manifest manifest(ZipFile zip) throws IOException {
    ZipEntry entry = zip.getEntry(Manifest.FILE);
    if (entry == null) {
      throw new BackupRefused("It has no manifest, and so is no backup of Trestle's.");
    }
    try (InputStream in = zip.getInputStream(entry)) {
      byte[] text = in.readNBytes(LARGEST_MANIFEST + 1);
      if (text.length > LARGEST_MANIFEST) {
        throw new BackupRefused("Its manifest is larger than any backup's.");
      }
      return Manifest.read(text);
    }
  }

  public Path path() {
    return path;
  }

  Manifest manifest() {
    return manifest;
  }

  /**
   * Reads all of it: that it holds what its manifest lists and nothing else, each part as long and
   * with the hash that is stated there, and each ledger's head what its lines come to.
   *
   * @throws BackupRefused naming the first thing that is not so
   */
  public void check() throws IOException {
    checkNames();
    checkEntries();
    Map<java.util.UUID, LedgerLines> ledgers = new HashMap<>();
    for (Manifest.Part part : manifest.parts()) {
      if (part.table().equals("ledger_entry")) {
        LedgerLines lines = new LedgerLines(manifest.table("ledger_entry").columns());
        checkPart(part, lines);
        ledgers.put(part.operator(), lines);
      } else {
        checkPart(part, OutputStream.nullOutputStream());
      }
    }
    for (Manifest.Ledger ledger : manifest.ledgers()) {
      checkLedger(ledger, ledgers.get(ledger.operator()));
    }
    if (ledgers.size() != manifest.ledgers().size()) {
      throw new BackupRefused("It has a ledger whose head its manifest does not state.");
    }
  }

  /** They go into SQL. */
  private void checkNames() {
    Set<String> tables = new HashSet<>();
    for (Manifest.Table table : manifest.tables()) {
      tables.add(table.name());
      if (!NAME.matcher(table.name()).matches()
          || !table.columns().stream().allMatch(column -> NAME.matcher(column).matches())) {
        throw new BackupRefused("Its manifest names a table or column that can't be one.");
      }
    }
    for (Manifest.Part part : manifest.parts()) {
      if (!tables.contains(part.table())) {
        throw new BackupRefused(
            "It has a part of a table that its manifest does not describe: %s."
                .formatted(part.table()));
      }
    }
  }

  private void checkEntries() throws IOException {
    Map<String, Long> expected = new HashMap<>();
    for (Manifest.Part part : manifest.parts()) {
      if (!PART.matcher(part.file()).matches() || expected.put(part.file(), part.bytes()) != null) {
        throw new BackupRefused("Its manifest names a part that can't be one: " + part.file());
      }
    }
    long packed = 0;
    Set<String> seen = new HashSet<>();
    for (ZipEntry entry : (Iterable<ZipEntry>) zip.stream().<ZipEntry>map(e -> e)::iterator) {
      packed += Math.max(0, entry.getCompressedSize());
      boolean known =
          entry.getName().equals(Manifest.FILE)
              || Long.valueOf(entry.getSize()).equals(expected.get(entry.getName()));
      if (!known || !seen.add(entry.getName())) {
        throw new BackupRefused(
            "It holds something that its manifest does not list: %s."
                .formatted(entry.getName().replaceAll("\\p{Cntrl}", "?")));
      }
    }
    if (seen.size() != expected.size() + 1) {
      throw new BackupRefused("It does not hold every part that its manifest lists.");
    }
    if (packed > Files.size(path)) {
      throw new BackupRefused("Its parts lie over one another.");
    }
  }

  private void checkPart(Manifest.Part part, OutputStream also) throws IOException {
    Measured measured = new Measured(also);
    byte[] buffer = new byte[BUFFER];
    try (InputStream in = stream(part)) {
      for (int read = in.read(buffer); read >= 0; read = in.read(buffer)) {
        measured.write(buffer, 0, read);
        if (measured.bytes() > part.bytes()) {
          throw new BackupRefused(
              "Its part %s expands to more than is stated.".formatted(part.file()));
        }
      }
    } catch (ZipException e) {
      throw new BackupRefused("Its part %s is damaged.".formatted(part.file()));
    }
    if (measured.bytes() != part.bytes()
        || measured.rows() != part.rows()
        || !measured.sha256Hex().equals(part.sha256())) {
      throw new BackupRefused(
          "Its part %s is not the one its manifest states.".formatted(part.file()));
    }
  }

  private static void checkLedger(Manifest.Ledger stated, LedgerLines lines) {
    if (lines == null) {
      throw new BackupRefused("The ledger of %s is missing.".formatted(stated.name()));
    }
    if (lines.fault() != null) {
      throw new BackupRefused(
          "The ledger of %s is broken: %s.".formatted(stated.name(), lines.fault()));
    }
    if (lines.size() != stated.size() || !lines.root().equals(stated.root())) {
      throw new BackupRefused(
          "The ledger of %s is not the one whose head is stated: its %,d lines come to the root %s, not %s."
              .formatted(stated.name(), lines.size(), lines.root(), stated.root()));
    }
  }

  /** The rows of a part, as COPY reads them. */
  InputStream stream(Manifest.Part part) throws IOException {
    ZipEntry entry = zip.getEntry(part.file());
    if (entry == null) {
      throw new BackupRefused("Its part %s is missing.".formatted(part.file()));
    }
    return new BufferedInputStream(zip.getInputStream(entry), BUFFER);
  }

  List<Manifest.Part> parts(java.util.UUID operator) {
    return manifest.parts().stream()
        .filter(
            part -> operator == null || part.operator() == null || part.operator().equals(operator))
        .toList();
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }
}
