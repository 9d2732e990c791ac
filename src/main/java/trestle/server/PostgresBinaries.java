package trestle.server;

import java.io.IOException;
import java.io.InputStream;
import java.net.JarURLConnection;
import java.net.URL;
import java.nio.file.DirectoryStream;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Comparator;
import java.util.List;
import java.util.jar.JarFile;
import java.util.stream.Stream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;

/**
 * The PostgreSQL programs that came with the application, unpacked into a directory named by their
 * checksum. Never into a shared temporary directory, where someone else could have put theirs.
 */
final class PostgresBinaries {
  static final String PREFIX = "postgres-programs-";

  /** Where the build has unpacked them already: as much to be trusted as the jar beside it. */
  static final String READY_MADE = "trestle.postgres-programs";

  /** Unpacks them below the parent unless they are there; those of other versions are removed. */
  static Path unpacked(Path parent) throws IOException {
    URL archive = archive();
    Path directory = parent.resolve(PREFIX + checksum(archive));
    if (!Files.isDirectory(directory)) {
      unpack(archive, parent, directory);
    }
    removeOthers(parent, directory);
    return directory;
  }

  private static URL archive() {
    String system = System.getProperty("os.name").startsWith("Mac") ? "darwin" : "linux";
    String machine = System.getProperty("os.arch").equals("aarch64") ? "arm_64" : "x86_64";
    URL archive =
        PostgresBinaries.class.getResource("/postgres-%s-%s.txz".formatted(system, machine));
    if (archive == null
        || !List.of("amd64", "x86_64", "aarch64").contains(System.getProperty("os.arch"))) {
      throw new StartRefused(
          "There is no built-in PostgreSQL for %s on %s. Set QUARKUS_DATASOURCE_JDBC_URL to use an outside database."
              .formatted(System.getProperty("os.name"), System.getProperty("os.arch")));
    }
    return archive;
  }

  /** As the jar states it, so that no start has to read the archive only to know which it is. */
  private static String checksum(URL archive) throws IOException {
    JarURLConnection connection = (JarURLConnection) archive.openConnection();
    connection.setUseCaches(false);
    try (JarFile jar = connection.getJarFile()) {
      return "%08x".formatted(connection.getJarEntry().getCrc());
    }
  }

  private static void unpack(URL archive, Path parent, Path directory) throws IOException {
    Path draft = Files.createTempDirectory(parent, PREFIX + "new-");
    Path readyMade = Path.of(System.getProperty(READY_MADE, "")).resolve(directory.getFileName());
    if (System.getProperty(READY_MADE) != null && Files.isDirectory(readyMade)) {
      copy(readyMade, draft);
    } else {
      unpack(archive, draft);
    }
    Files.setPosixFilePermissions(draft, PosixFilePermissions.fromString("rwxr-xr-x"));
    try {
      Files.move(draft, directory, StandardCopyOption.ATOMIC_MOVE);
    } catch (FileAlreadyExistsException | java.nio.file.DirectoryNotEmptyException e) {
      remove(draft);
    }
  }

  private static void copy(Path from, Path to) throws IOException {
    try (Stream<Path> paths = Files.walk(from)) {
      for (Path path : paths.skip(1).toList()) {
        Files.copy(
            path,
            to.resolve(from.relativize(path)),
            StandardCopyOption.COPY_ATTRIBUTES,
            LinkOption.NOFOLLOW_LINKS);
      }
    }
  }

  private static void unpack(URL archive, Path draft) throws IOException {
    try (XzStream content = XzStream.open(archive, draft.getParent());
        TarArchiveInputStream tar = new TarArchiveInputStream(content.unpacked())) {
      for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
        unpack(entry, tar, draft);
      }
      content.checkWhole();
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
