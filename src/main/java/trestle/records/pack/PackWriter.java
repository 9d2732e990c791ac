package trestle.records.pack;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;

/**
 * Writes the ZIP, file by file, and notes the SHA-256 of each. The same files give the same bytes:
 * every entry bears the time of the head.
 */
final class PackWriter implements AutoCloseable {
  private final ZipOutputStream zip;
  private final LocalDateTime time;
  private final List<Written> written = new ArrayList<>();

  /** A file that is in the pack. */
  record Written(String name, long bytes, String sha256) {}

  interface Body {
    void to(OutputStream out) throws IOException;
  }

  PackWriter(OutputStream out, Instant at) {
    zip = new ZipOutputStream(out, UTF_8);
    time = LocalDateTime.ofInstant(at, ZoneOffset.UTC).withNano(0);
  }

  void file(String name, String text) throws IOException {
    file(name, out -> out.write(text.getBytes(UTF_8)));
  }

  void file(String name, Body body) throws IOException {
    ZipEntry entry = new ZipEntry(name);
    entry.setTimeLocal(time);
    zip.putNextEntry(entry);
    Counting out = new Counting(zip);
    body.to(out);
    zip.closeEntry();
    written.add(new Written(name, out.bytes, HexFormat.of().formatHex(out.digest.digest())));
  }

  List<Written> written() {
    return List.copyOf(written);
  }

  @Override
  public void close() throws IOException {
    zip.close();
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("Every Java has SHA-256", e);
    }
  }

  static String sha256(byte[] bytes) {
    return HexFormat.of().formatHex(sha256().digest(bytes));
  }

  private static final class Counting extends FilterOutputStream {
    private final MessageDigest digest = sha256();
    private long bytes;

    Counting(OutputStream out) {
      super(out);
    }

    @Override
    public void write(int one) throws IOException {
      out.write(one);
      digest.update((byte) one);
      bytes++;
    }

    @Override
    public void write(byte[] from, int at, int length) throws IOException {
      out.write(from, at, length);
      digest.update(from, at, length);
      bytes += length;
    }

    @Override
    public void close() {
      // The next file goes into the same ZIP.
    }
  }
}
