package trestle.web;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.zip.CRC32;
import java.util.zip.GZIPInputStream;
import org.junit.jupiter.api.Test;

/** The Java library's own reader of gzip checks the sum and the length at the stream's end. */
class PackedTest {
  @Test
  void piecesPackedByThemselvesAreOneStream() throws IOException {
    Random random = new Random(26);
    for (int round = 0; round < 200; round++) {
      StringBuilder whole = new StringBuilder();
      List<Packed> pieces = new ArrayList<>();
      for (int i = random.nextInt(5); i >= 0; i--) {
        String piece = text(random, random.nextInt(20_000));
        whole.append(piece);
        pieces.add(Packed.of(piece, 1 + random.nextInt(9)));
      }
      assertEquals(whole.toString(), read(Packed.stream(pieces)));
    }
  }

  @Test
  void nothingIsAStreamToo() throws IOException {
    assertEquals("", read(Packed.stream(List.of())));
    assertEquals("", read(Packed.stream(List.of(Packed.of("", 9), Packed.of("", 2)))));
  }

  @Test
  void aSumOfTwoIsThatOfBothTogether() {
    byte[] first = "what fell due ".getBytes(StandardCharsets.UTF_8);
    byte[] second = "on the magneto".getBytes(StandardCharsets.UTF_8);
    CRC32 one = new CRC32();
    one.update(first);
    CRC32 other = new CRC32();
    other.update(second);
    CRC32 both = new CRC32();
    both.update(first);
    both.update(second);
    assertEquals(
        both.getValue(), Crc32Sum.combined(one.getValue(), other.getValue(), second.length));
  }

  private static String text(Random random, int length) {
    StringBuilder text = new StringBuilder();
    while (text.length() < length) {
      text.append(random.nextInt(4) == 0 ? "ä—" : "<td>" + random.nextInt(100));
    }
    return text.toString();
  }

  private static String read(byte[] gzip) throws IOException {
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(gzip))) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
