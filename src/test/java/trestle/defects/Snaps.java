package trestle.defects;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Pattern;
import java.util.zip.CRC32;
import javax.imageio.ImageIO;

/** Made-up pictures for tests. */
public final class Snaps {
  private Snaps() {}

  public static byte[] jpeg(int width, int height) {
    return written(drawn(width, height), "jpeg");
  }

  static byte[] png(int width, int height) {
    return written(drawn(width, height), "png");
  }

  /** Red in the upper left corner, blue elsewhere: it can be told which way up it is. */
  static BufferedImage drawn(int width, int height) {
    BufferedImage image = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = image.createGraphics();
    graphics.setColor(Color.BLUE);
    graphics.fillRect(0, 0, width, height);
    graphics.setColor(Color.RED);
    graphics.fillRect(0, 0, width / 2, height / 2);
    graphics.dispose();
    return image;
  }

  static byte[] written(BufferedImage image, String format) {
    try {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      ImageIO.write(image, format, bytes);
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /**
   * The same JPEG with an EXIF segment after its first two bytes: which way up it was taken, and
   * words that stand for the place.
   */
  public static byte[] withExif(byte[] jpeg, int orientation, String place) {
    byte[] words = place.getBytes(StandardCharsets.US_ASCII);
    ByteBuffer segment = ByteBuffer.allocate(4 + 6 + 8 + 2 + 12 + 4 + words.length);
    segment.putShort((short) 0xffe1).putShort((short) (segment.capacity() - 2));
    segment.put("Exif\0\0".getBytes(StandardCharsets.US_ASCII));
    segment.put("MM".getBytes(StandardCharsets.US_ASCII)).putShort((short) 42).putInt(8);
    segment.putShort((short) 1).putShort((short) 0x0112).putShort((short) 3).putInt(1);
    segment.putShort((short) orientation).putShort((short) 0).putInt(0).put(words);
    ByteBuffer whole = ByteBuffer.allocate(jpeg.length + segment.capacity());
    whole.put(jpeg, 0, 2).put(segment.array()).put(jpeg, 2, jpeg.length - 2);
    return whole.array();
  }

  /** A PNG whose header claims so many pixels; its checksum is right, its pixels are not there. */
  static byte[] pngClaiming(int width, int height) {
    byte[] png = png(8, 8);
    ByteBuffer.wrap(png).putInt(16, width).putInt(20, height);
    CRC32 sum = new CRC32();
    sum.update(png, 12, 17);
    ByteBuffer.wrap(png).putInt(29, (int) sum.getValue());
    return png;
  }

  /** The photos that a page links to. */
  static List<String> linked(String page) {
    return Pattern.compile("href=\"(/photos/[0-9a-f]{64})\"")
        .matcher(page)
        .results()
        .map(found -> found.group(1))
        .toList();
  }
}
