package trestle.defects;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;

/** Made-up pictures for tests. */
final class Snaps {
  private Snaps() {}

  static byte[] jpeg(int width, int height) {
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

  /** The photos that a page links to. */
  static List<String> linked(String page) {
    return Pattern.compile("href=\"(/photos/[0-9a-f]{64})\"")
        .matcher(page)
        .results()
        .map(found -> found.group(1))
        .toList();
  }
}
