package trestle.server;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;

/** Directories and files that only the program's own user may open. */
final class PrivateFiles {

  static void directory(Path path) throws IOException {
    Files.createDirectories(path);
    Files.setPosixFilePermissions(path, PosixFilePermissions.fromString("rwx------"));
  }

  /** Writes all or nothing, and on the disk before this returns: a password lost is data lost. */
  static void write(Path path, String content) throws IOException {
    Path draft = path.resolveSibling(path.getFileName() + ".new");
    Files.deleteIfExists(draft);
    var onlyOwner =
        PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"));
    try (FileChannel file =
        FileChannel.open(
            draft, Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE), onlyOwner)) {
      ByteBuffer bytes = StandardCharsets.UTF_8.encode(content);
      while (bytes.hasRemaining()) {
        file.write(bytes);
      }
      file.force(true);
    }
    Files.move(draft, path, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  private PrivateFiles() {}
}
