package trestle.server;

import io.zonky.test.db.postgres.embedded.DefaultPostgresBinaryResolver;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.stream.Stream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.tukaani.xz.XZInputStream;

/**
 * The PostgreSQL programs that came with the application, unpacked into a directory named by their
 * digest. Never into a shared temporary directory, where someone else could have put theirs.
 */
final class PostgresBinaries {
  private static final String PREFIX = "postgres-programs-";

  /** Unpacks them below the parent unless they are there; those of other versions are removed. */
  static Path unpacked(Path parent) throws IOException {
    byte[] archive = archive();
    Path directory = parent.resolve(PREFIX + digest(archive));
    if (!Files.isDirectory(directory)) {
      unpack(archive, parent, directory);
    }
    removeOthers(parent, directory);
    return directory;
  }

  private static byte[] archive() throws IOException {
    String system = System.getProperty("os.name").startsWith("Mac") ? "Darwin" : "Linux";
    String machine =
        System.getProperty("os.arch").equals("amd64") ? "x86_64" : System.getProperty("os.arch");
    try (InputStream in = DefaultPostgresBinaryResolver.INSTANCE.getPgBinary(system, machine)) {
      return in.readAllBytes();
    } catch (IllegalStateException e) {
      throw new StartRefused(
          "There is no built-in PostgreSQL for %s on %s. Set QUARKUS_DATASOURCE_JDBC_URL to use an outside database."
              .formatted(system, machine));
    }
  }

  private static String digest(byte[] archive) {
    try {
      byte[] hash = MessageDigest.getInstance("SHA-256").digest(archive);
      return HexFormat.of().formatHex(hash, 0, 8);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException(e);
    }
  }

  private static void unpack(byte[] archive, Path parent, Path directory) throws IOException {
    Path draft = Files.createTempDirectory(parent, PREFIX + "new-");
    try (TarArchiveInputStream tar =
        new TarArchiveInputStream(new XZInputStream(new ByteArrayInputStream(archive)))) {
      for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
        unpack(entry, tar, draft);
      }
    }
    Files.setPosixFilePermissions(draft, PosixFilePermissions.fromString("rwxr-xr-x"));
    try {
      Files.move(draft, directory, StandardCopyOption.ATOMIC_MOVE);
    } catch (FileAlreadyExistsException | java.nio.file.DirectoryNotEmptyException e) {
      remove(draft);
    }
  }

  private static void unpack(TarArchiveEntry entry, InputStream content, Path directory)
      throws IOException {
    Path target = directory.resolve(entry.getName()).normalize();
    if (entry.isDirectory()) {
      Files.createDirectories(target);
      return;
    }
    Files.createDirectories(target.getParent());
    if (entry.isSymbolicLink() || entry.isLink()) {
      Files.createSymbolicLink(target, Path.of(entry.getLinkName()));
      return;
    }
    Files.copy(content, target);
    boolean program = target.getParent().endsWith("bin");
    Files.setPosixFilePermissions(
        target, PosixFilePermissions.fromString(program ? "rwxr-xr-x" : "rw-r--r--"));
  }

  private static void removeOthers(Path parent, Path kept) throws IOException {
    try (DirectoryStream<Path> found = Files.newDirectoryStream(parent, PREFIX + "*")) {
      for (Path directory : found) {
        if (!directory.equals(kept)) {
          remove(directory);
        }
      }
    }
  }

  static void remove(Path directory) throws IOException {
    try (Stream<Path> paths = Files.walk(directory)) {
      for (Path path : paths.sorted(Comparator.reverseOrder()).toList()) {
        Files.delete(path);
      }
    }
  }

  private PostgresBinaries() {}
}
