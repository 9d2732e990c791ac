package trestle.server.backup;

import java.io.IOException;
import java.io.OutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** Passes everything on, and knows afterwards how much it was: bytes, rows, SHA-256. */
final class Measured extends OutputStream {
  private final OutputStream[] to;
  private final MessageDigest digest = sha256();
  private long bytes;
  private long rows;

  Measured(OutputStream... to) {
    this.to = to;
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java has SHA-256", e);
    }
  }

  long bytes() {
    return bytes;
  }

  /** A row ends with a line feed; one within a value is written otherwise. */
  long rows() {
    return rows;
  }

  String sha256Hex() {
    return HexFormat.of().formatHex(digest.digest());
  }

  @Override
  public void write(int b) throws IOException {
    write(new byte[] {(byte) b}, 0, 1);
  }

  @Override
  public void write(byte[] data, int from, int length) throws IOException {
    digest.update(data, from, length);
    bytes += length;
    for (int at = from; at < from + length; at++) {
      if (data[at] == '\n') {
        rows++;
      }
    }
    for (OutputStream each : to) {
      each.write(data, from, length);
    }
  }
}
