package trestle.server;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

/**
 * Where the built-in database, its passwords and the keys live between starts: closed to everyone
 * else (0700), and held by one running program at a time. The operating system lets go of the lock
 * however that program ends.
 */
final class DataDirectory {
  private static final int KEY_BYTES = 32;
  private static final int LARGE_LOG = 10_000_000;

  /** Of PostgreSQL's own postmaster.pid. */
  private static final int PORT_LINE = 3;

  private final Path path;
  private final FileChannel lockFile;

  private DataDirectory(Path path, FileChannel lockFile) {
    this.path = path;
    this.lockFile = lockFile;
  }

  /** Creates the directory if need be and takes its lock, or says why that cannot be. */
  static DataDirectory open(Path given) {
    Path path = given.toAbsolutePath().normalize();
    if (Files.exists(path) && !Files.isDirectory(path)) {
      throw new StartRefused(
          "TRESTLE_DATA_DIR must name a directory, but %s is a file.".formatted(path));
    }
    try {
      PrivateFiles.directory(path);
      PrivateFiles.directory(path.resolve("secrets"));
      return new DataDirectory(path, locked(path));
    } catch (IOException e) {
      throw new StartRefused(
          "The data directory %s can't be written by user %s (%s). Set TRESTLE_DATA_DIR to a directory that this user owns."
              .formatted(path, System.getProperty("user.name"), e.getClass().getSimpleName()));
    }
  }

  private static FileChannel locked(Path path) throws IOException {
    Path file = path.resolve("lock");
    FileChannel channel =
        FileChannel.open(
            file, StandardOpenOption.CREATE, StandardOpenOption.READ, StandardOpenOption.WRITE);
    FileLock lock = channel.tryLock();
    if (lock == null) {
      String holder = Files.readString(file).strip();
      channel.close();
      throw new StartRefused(
          "Another Trestle (process %s) is running on the data directory %s. Stop it first, or set TRESTLE_DATA_DIR to another directory."
              .formatted(holder, path));
    }
    channel.truncate(0);
    channel.write(StandardCharsets.UTF_8.encode(Long.toString(ProcessHandle.current().pid())), 0);
    return channel;
  }

  /** The PostgreSQL of a program that is running on a data directory. */
  record Running(int port, String ownerPassword) {}

  /** Asks without taking anything: empty when no program holds the directory. */
  static Optional<Running> running(Path path) {
    Path lock = path.resolve("lock");
    if (!Files.exists(lock)) {
      return Optional.empty();
    }
    try (FileChannel channel = FileChannel.open(lock, StandardOpenOption.WRITE);
        FileLock taken = channel.tryLock()) {
      if (taken != null) {
        return Optional.empty();
      }
      List<String> process = Files.readAllLines(path.resolve("postgres").resolve("postmaster.pid"));
      String password = Files.readString(path.resolve("secrets").resolve("owner-password"));
      return Optional.of(
          new Running(Integer.parseInt(process.get(PORT_LINE).strip()), password.strip()));
    } catch (IOException | IndexOutOfBoundsException | NumberFormatException e) {
      throw new StartRefused(
          "The program that runs on %s has no database to be reached just now (%s). Try again in a minute."
              .formatted(path, e.getMessage()));
    }
  }

  Path path() {
    return path;
  }

  /** PostgreSQL's own data directory. */
  Path postgres() {
    return path.resolve("postgres");
  }

  /** What PostgreSQL says; begun anew when it has grown large. */
  Path postgresLog() throws IOException {
    Path log = path.resolve("postgres.log");
    if (Files.exists(log) && Files.size(log) > LARGE_LOG) {
      Files.delete(log);
    }
    return log;
  }

  /** The password or key of this name: made at random the first time, the same ever after. */
  String secret(String name) {
    Path file = path.resolve("secrets").resolve(name);
    try {
      if (!Files.exists(file)) {
        PrivateFiles.write(file, newSecret());
      }
      return Files.readString(file).strip();
    } catch (IOException e) {
      throw new StartRefused(
          "The file %s can't be read or written (%s).".formatted(file, e.getMessage()));
    }
  }

  static String newSecret() {
    byte[] bytes = new byte[KEY_BYTES];
    new SecureRandom().nextBytes(bytes);
    return HexFormat.of().formatHex(bytes);
  }

  boolean isHeld() {
    return lockFile.isOpen();
  }
}
