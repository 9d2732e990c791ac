package trestle.defects;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.util.Iterator;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageReadParam;
import javax.imageio.ImageReader;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.ImageInputStream;
import javax.imageio.stream.MemoryCacheImageInputStream;
import javax.imageio.stream.MemoryCacheImageOutputStream;

/**
 * Makes a picture anew from a file that somebody sent: upright, as JPEG, with nothing of the file
 * but its pixels, so that no place, name or program that was hidden in it is kept.
 */
final class Pictures {
  /** The longest side kept; a nick in a propeller blade shows well at this. */
  private static final int LONGEST = 4_096;

  /** From here on only every second, third … pixel is looked at, to spare memory. */
  private static final int LONGEST_READ = 6_000;

  private static final int THUMBNAIL = 320;

  /** More would need more memory to look into than a picture is worth. */
  private static final long MOST_PIXELS = 80_000_000;

  private static final float QUALITY = 0.86f;

  private Pictures() {}

  /**
   * @throws IllegalArgumentException with the end of a sentence that begins with the file's name
   */
  static Picture of(byte[] file) {
    String format = format(file);
    if (format == null) {
      throw new IllegalArgumentException(
          "is not a picture that can be kept: send it as JPEG or PNG");
    }
    try {
      BufferedImage image = upright(read(file, format), ExifOrientation.of(file));
      return new Picture(
          "image/jpeg",
          image.getWidth(),
          image.getHeight(),
          jpeg(image),
          jpeg(scaled(image, THUMBNAIL)));
    } catch (IOException | RuntimeException e) {
      if (e instanceof Unfit) {
        throw (Unfit) e;
      }
      throw new IllegalArgumentException("is damaged: it could not be read as a picture", e);
    }
  }

  private static final class Unfit extends IllegalArgumentException {
    Unfit(String message) {
      super(message);
    }
  }

  /** From what is in the file, never from its name or what its sender calls it. */
  private static String format(byte[] file) {
    if (begins(file, 0xff, 0xd8, 0xff)) {
      return "jpeg";
    }
    return begins(file, 0x89, 'P', 'N', 'G', 0x0d, 0x0a, 0x1a, 0x0a) ? "png" : null;
  }

  private static boolean begins(byte[] file, int... with) {
    if (file.length < with.length) {
      return false;
    }
    for (int i = 0; i < with.length; i++) {
      if ((file[i] & 0xff) != with[i]) {
        return false;
      }
    }
    return true;
  }

  private static BufferedImage read(byte[] file, String format) throws IOException {
    Iterator<ImageReader> readers = ImageIO.getImageReadersByFormatName(format);
    ImageReader reader = readers.next();
    try (ImageInputStream in = new MemoryCacheImageInputStream(new ByteArrayInputStream(file))) {
      reader.setInput(in, true, true);
      int width = reader.getWidth(0);
      int height = reader.getHeight(0);
      if ((long) width * height > MOST_PIXELS) {
        throw new Unfit("has more than 80 million pixels: send a smaller one");
      }
      ImageReadParam param = reader.getDefaultReadParam();
      int every = 1 + (Math.max(width, height) - 1) / LONGEST_READ;
      param.setSourceSubsampling(every, every, 0, 0);
      return scaled(reader.read(0, param), LONGEST);
    } finally {
      reader.dispose();
    }
  }

  /** On white where it was transparent; smaller when a side is longer than that. */
  private static BufferedImage scaled(BufferedImage image, int longest) {
    int longer = Math.max(image.getWidth(), image.getHeight());
    double factor = Math.min(1.0, (double) longest / longer);
    int width = Math.max(1, (int) Math.round(image.getWidth() * factor));
    int height = Math.max(1, (int) Math.round(image.getHeight() * factor));
    BufferedImage from = image;
    while (from.getWidth() > 2 * width && from.getHeight() > 2 * height) {
      from = drawn(from, from.getWidth() / 2, from.getHeight() / 2);
    }
    return drawn(from, width, height);
  }

  private static BufferedImage drawn(BufferedImage image, int width, int height) {
    BufferedImage made = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = made.createGraphics();
    graphics.setRenderingHint(
        RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
    graphics.drawImage(image, 0, 0, width, height, Color.WHITE, null);
    graphics.dispose();
    return made;
  }

  /** Turned and mirrored as its orientation (1 to 8 of EXIF) asks. */
  private static BufferedImage upright(BufferedImage image, int orientation) {
    if (orientation == 1) {
      return image;
    }
    int width = image.getWidth();
    int height = image.getHeight();
    AffineTransform turn =
        switch (orientation) {
          case 2 -> new AffineTransform(-1, 0, 0, 1, width, 0);
          case 3 -> new AffineTransform(-1, 0, 0, -1, width, height);
          case 4 -> new AffineTransform(1, 0, 0, -1, 0, height);
          case 5 -> new AffineTransform(0, 1, 1, 0, 0, 0);
          case 6 -> new AffineTransform(0, 1, -1, 0, height, 0);
          case 7 -> new AffineTransform(0, -1, -1, 0, height, width);
          case 8 -> new AffineTransform(0, -1, 1, 0, 0, width);
          default -> new AffineTransform();
        };
    boolean swaps = orientation >= 5;
    BufferedImage made =
        new BufferedImage(
            swaps ? height : width, swaps ? width : height, BufferedImage.TYPE_INT_RGB);
    Graphics2D graphics = made.createGraphics();
    graphics.drawImage(image, turn, null);
    graphics.dispose();
    return made;
  }

  private static byte[] jpeg(BufferedImage image) throws IOException {
    ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (var out = new MemoryCacheImageOutputStream(bytes)) {
      writer.setOutput(out);
      ImageWriteParam param = writer.getDefaultWriteParam();
      param.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
      param.setCompressionQuality(QUALITY);
      writer.write(null, new IIOImage(image, null, null), param);
    } finally {
      writer.dispose();
    }
    return bytes.toByteArray();
  }
}
