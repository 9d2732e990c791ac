package trestle.records.pack;

import java.io.ByteArrayOutputStream;
import java.io.FilterInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipFile;
import trestle.web.Refusal;

/**
 * A pack that somebody sent, opened with care: only names that a pack may have, and never more
 * bytes than it says and than anybody needs, however little of it came over the wire.
 */
final class PackFile implements AutoCloseable {
  static final int MOST_FILES = 5_000;
  static final long MOST_BYTES = 1L << 30;

  /** What text packs down to is far above this. */
  private static final long MOST_RATIO = 100;

  private static final long SMALL = 1 << 16;

  private final ZipFile zip;
  private final Map<String, ZipEntry> entries = new TreeMap<>();

  private PackFile(ZipFile zip) {
    this.zip = zip;
  }

  /** Of the file as it lies on the disk. */
  static String sha256(Path file) throws IOException {
    var digest = PackWriter.sha256();
    try (InputStream in = Files.newInputStream(file)) {
      byte[] some = new byte[1 << 16];
      for (int got = in.read(some); got > 0; got = in.read(some)) {
        digest.update(some, 0, got);
      }
    }
    return HexFormat.of().formatHex(digest.digest());
  }

  /**
   * @throws Refusal saying why it can't be a pack
   */
  static PackFile open(Path file) {
    try {
      PackFile pack = new PackFile(new ZipFile(file.toFile(), StandardCharsets.UTF_8));
      try {
        pack.look();
        return pack;
      } catch (RuntimeException e) {
        pack.close();
        throw e;
      }
    } catch (ZipException | IllegalArgumentException e) {
      throw refused("It is no whole ZIP file: it was cut short or damaged on its way.");
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void look() {
    if (zip.size() > MOST_FILES) {
      throw refused("It holds " + zip.size() + " files; a pack holds at most " + MOST_FILES + ".");
    }
    long all = 0;
    for (ZipEntry entry : zip.stream().toList()) {
      String name = entry.getName();
      if (!PackNames.isName(name)) {
        throw refused(
            "“"
                + shortened(name)
                + "” is no name of a file of a record pack: it could lead outside of it.");
      }
      if (entries.put(name, entry) != null) {
        throw refused("It holds “" + name + "” twice.");
      }
      boolean swells =
          entry.getSize() > SMALL && entry.getSize() / MOST_RATIO > entry.getCompressedSize();
      all += Math.max(0, entry.getSize());
      if (swells || all > MOST_BYTES) {
        throw endless(name);
      }
    }
  }

  Set<String> names() {
    return entries.keySet();
  }

  /** Reads a file; it breaks off where there is more than the ZIP says. */
  InputStream read(String name) {
    ZipEntry entry = entries.get(name);
    if (entry == null) {
      throw refused("It lacks the file “" + name + "”.");
    }
    try {
      return new Bounded(zip.getInputStream(entry), entry.getSize(), name);
    } catch (IOException e) {
      throw damaged(name);
    }
  }

  /** A small file as a whole. */
  byte[] bytes(String name, long most) {
    try (InputStream in = read(name)) {
      ByteArrayOutputStream all = new ByteArrayOutputStream();
      byte[] some = new byte[8192];
      for (int got = in.read(some); got > 0; got = in.read(some)) {
        if (all.size() + got > most) {
          throw refused("Its file “" + name + "” is larger than " + (most >> 20) + " MB.");
        }
        all.write(some, 0, got);
      }
      return all.toByteArray();
    } catch (IOException e) {
      throw damaged(name);
    }
  }

  @Override
  public void close() {
    try {
      zip.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  static Refusal refused(String sentence) {
    return new Refusal(TakingIn.FIELD, sentence);
  }

  static Refusal damaged(String name) {
    return refused("Its file “" + name + "” can’t be unpacked: it was damaged on its way.");
  }

  private static Refusal endless(String name) {
    return refused(
        "Unpacked, “" + name + "” grows beyond what a pack may hold: it is not unpacked.");
  }

  private static String shortened(String name) {
    return name.length() > 60 ? name.substring(0, 60) + "…" : name;
  }

  private static final class Bounded extends FilterInputStream {
    private final String name;
    private long left;

    Bounded(InputStream in, long size, String name) {
      super(in);
      this.left = size;
      this.name = name;
    }

    @Override
    public int read() throws IOException {
      int one = in.read();
      if (one >= 0) {
        count(1);
      }
      return one;
    }

    @Override
    public int read(byte[] into, int at, int length) throws IOException {
      int got = in.read(into, at, length);
      if (got > 0) {
        count(got);
      }
      return got;
    }

    private void count(int got) {
      left -= got;
      if (left < 0) {
        throw endless(name);
      }
    }
  }
}
