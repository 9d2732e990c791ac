package trestle.web;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.zip.CRC32;
import java.util.zip.Deflater;

/**
 * A piece of text packed so that pieces, each packed by itself, put one after another are one gzip
 * stream: what is packed once need not be packed again for every page it is part of.
 *
 * <p>A piece ends on a whole byte and points at nothing before itself (a full flush, RFC 1951); the
 * stream's check sum is combined from those of the pieces (RFC 1952).
 */
final class Packed {
  private static final byte[] HEAD = {0x1f, (byte) 0x8b, 8, 0, 0, 0, 0, 0, 0, (byte) 0xff};
  private static final byte[] NO_MORE_BLOCKS = {3, 0};
  private static final int TRAILER_BYTES = 8;

  private final byte[] blocks;
  private final long length;
  private final long crc;

  private Packed(byte[] blocks, long length, long crc) {
    this.blocks = blocks;
    this.length = length;
    this.crc = crc;
  }

  /**
   * @param level from 1, quick, to 9, small
   */
  static Packed of(String text, int level) {
    byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
    CRC32 crc = new CRC32();
    crc.update(bytes);
    return new Packed(deflated(bytes, level), bytes.length, crc.getValue());
  }

  private static byte[] deflated(byte[] bytes, int level) {
    Deflater deflater = new Deflater(level, true);
    try {
      deflater.setInput(bytes);
      ByteArrayOutputStream out = new ByteArrayOutputStream(bytes.length / 4 + 64);
      byte[] buffer = new byte[8192];
      int made;
      do {
        made = deflater.deflate(buffer, 0, buffer.length, Deflater.FULL_FLUSH);
        out.write(buffer, 0, made);
      } while (made == buffer.length);
      return out.toByteArray();
    } finally {
      deflater.end();
    }
  }

  /** One gzip stream of all the pieces. */
  static byte[] stream(List<Packed> pieces) {
    int size = HEAD.length + NO_MORE_BLOCKS.length + TRAILER_BYTES;
    long length = 0;
    long crc = 0;
    for (Packed piece : pieces) {
      size += piece.blocks.length;
      length += piece.length;
      crc = Crc32Sum.combined(crc, piece.crc, piece.length);
    }
    ByteBuffer stream = ByteBuffer.allocate(size).order(ByteOrder.LITTLE_ENDIAN);
    stream.put(HEAD);
    pieces.forEach(piece -> stream.put(piece.blocks));
    return stream.put(NO_MORE_BLOCKS).putInt((int) crc).putInt((int) length).array();
  }
}
