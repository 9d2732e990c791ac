package trestle.server.backup;

import java.io.IOException;
import java.io.InputStream;
import java.io.RandomAccessFile;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;

/**
 * The SHA-256 of all that stands before it, as the last 64 letters of the file: the end of the
 * ZIP's comment, so that the file remains a ZIP and yet no byte of it can change unseen.
 */
final class Seal {
  private static final int LENGTH = 64;
  private static final int BUFFER = 1 << 20;

  /** The comment before the hash is known. */
  static final String BLANK = "Trestle backup, SHA-256 " + "0".repeat(LENGTH);

  private Seal() {}

  /** Also waits until the file is on the disk. */
  static void put(Path file) throws IOException {
    String hash = hashBefore(file);
    try (RandomAccessFile open = new RandomAccessFile(file.toFile(), "rw")) {
      open.seek(open.length() - LENGTH);
      open.write(hash.getBytes(StandardCharsets.US_ASCII));
      open.getFD().sync();
    }
  }

  /** Whether the file is, byte for byte, what was sealed. */
  static boolean holds(Path file) throws IOException {
    return Files.size(file) > LENGTH && hashBefore(file).equals(last(file));
  }

  private static String last(Path file) throws IOException {
    try (RandomAccessFile open = new RandomAccessFile(file.toFile(), "r")) {
      byte[] end = new byte[LENGTH];
      open.seek(open.length() - LENGTH);
      open.readFully(end);
      return new String(end, StandardCharsets.US_ASCII);
    }
  }

  private static String hashBefore(Path file) throws IOException {
    MessageDigest digest = Measured.sha256();
    long left = Files.size(file) - LENGTH;
    byte[] buffer = new byte[BUFFER];
    try (InputStream in = Files.newInputStream(file)) {
      while (left > 0) {
        int read = in.read(buffer, 0, (int) Math.min(BUFFER, left));
        if (read < 0) {
          throw new IOException(file + " became shorter while it was read");
        }
        digest.update(buffer, 0, read);
        left -= read;
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }
}
