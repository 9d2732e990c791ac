package trestle.server;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.net.URL;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.tukaani.xz.LZMA2Options;
import org.tukaani.xz.XZOutputStream;

class XzStreamTest {
  private static final byte[] CONTENT = "magneto, left and right; ".repeat(40_000).getBytes();

  @TempDir Path directory;

  @ParameterizedTest
  @ValueSource(strings = {"xz", "no-such-tool-here"})
  void readsTheSameWithAndWithoutTheSystemsTool(String tool) throws IOException {
    URL archive = archive(packed());
    try (XzStream stream = XzStream.open(archive, directory, tool)) {
      assertThat(stream.unpacked().readAllBytes()).isEqualTo(CONTENT);
      stream.checkWhole();
    }
    try (var left = Files.list(directory)) {
      assertThat(left.map(path -> path.getFileName().toString()).toList())
          .isEqualTo(List.of("packed.xz"));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"xz", "no-such-tool-here"})
  void refusesAnArchiveCutShort(String tool) throws IOException {
    byte[] whole = packed();
    URL archive = archive(Arrays.copyOf(whole, whole.length - 20));
    assertThatThrownBy(
            () -> {
              try (XzStream stream = XzStream.open(archive, directory, tool)) {
                stream.unpacked().transferTo(OutputStream.nullOutputStream());
                stream.checkWhole();
              }
            })
        .isInstanceOf(IOException.class);
  }

  @Test
  void theArchiveOfThisSystemIsPackedThatWay() throws IOException {
    URL archive = XzStreamTest.class.getResource("/postgres-linux-x86_64.txz");
    assertThat(archive).isNotNull();
    try (XzStream stream = XzStream.open(archive, directory)) {
      assertThat(stream.unpacked().readNBytes(512)).hasSize(512);
    }
  }

  private URL archive(byte[] content) throws IOException {
    return Files.write(directory.resolve("packed.xz"), content).toUri().toURL();
  }

  private static byte[] packed() throws IOException {
    var bytes = new java.io.ByteArrayOutputStream();
    try (XZOutputStream out = new XZOutputStream(bytes, new LZMA2Options())) {
      out.write(CONTENT);
    }
    return bytes.toByteArray();
  }
}
