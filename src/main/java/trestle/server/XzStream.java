package trestle.server;

import java.io.BufferedInputStream;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.net.URL;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import org.tukaani.xz.XZInputStream;

/**
 * What an .xz archive holds: read by the system's own xz where there is one, which takes a third of
 * the time and works beside this program, else by the Java library.
 */
final class XzStream implements Closeable {
  private static final String TOOL = "xz";

  /**
   * As the programs' directories: what a kill left lying is removed with those of other versions.
   */
  private static final String COPY = PostgresBinaries.PREFIX + "packed-";

  private final Path copy;
  private final Process tool;
  private final InputStream unpacked;

  private XzStream(Path copy, Process tool, InputStream unpacked) {
    this.copy = copy;
    this.tool = tool;
    this.unpacked = unpacked;
  }

  /**
   * @param beside a directory of this program's own, for the copy that the tool reads
   */
  static XzStream open(URL archive, Path beside) throws IOException {
    return open(archive, beside, TOOL);
  }

  static XzStream open(URL archive, Path beside, String toolName) throws IOException {
    Path copy = Files.createTempFile(beside, COPY, ".xz");
    try (InputStream packed = archive.openStream()) {
      Files.copy(packed, copy, StandardCopyOption.REPLACE_EXISTING);
    }
    try {
      Process tool =
          new ProcessBuilder(toolName, "--decompress", "--stdout")
              .redirectInput(copy.toFile())
              .redirectError(ProcessBuilder.Redirect.DISCARD)
              .start();
      return new XzStream(copy, tool, tool.getInputStream());
    } catch (IOException noSuchTool) {
      InputStream packed = new BufferedInputStream(Files.newInputStream(copy));
      return new XzStream(copy, null, new XZInputStream(packed));
    }
  }

  InputStream unpacked() {
    return unpacked;
  }

  /**
   * To be asked when all of it has been read: an archive cut short would else look whole.
   *
   * @throws IOException when it was not
   */
  void checkWhole() throws IOException {
    unpacked.transferTo(java.io.OutputStream.nullOutputStream());
    if (tool != null && exitCode() != 0) {
      throw new IOException("the archive of PostgreSQL's programs could not be unpacked");
    }
  }

  private int exitCode() throws IOException {
    try {
      return tool.waitFor();
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while PostgreSQL's programs were unpacked", e);
    }
  }

  @Override
  public void close() throws IOException {
    unpacked.close();
    if (tool != null) {
      tool.destroy();
    }
    Files.deleteIfExists(copy);
  }
}
