package trestle.formats;

import com.google.zxing.BarcodeFormat;
import com.google.zxing.EncodeHintType;
import com.google.zxing.WriterException;
import com.google.zxing.common.BitMatrix;
import com.google.zxing.qrcode.QRCodeWriter;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Base64;
import java.util.Map;
import javax.imageio.ImageIO;

/** QR codes, black on white. */
public final class Qr {
  /** So that a reader of the page that smooths pictures still leaves sharp edges. */
  private static final int PIXELS = 6;

  /** What the standard asks for around a code. */
  private static final int QUIET = 4;

  /** A code with more modules a side than this is better read with less error correction. */
  private static final int FINE = 89;

  private Qr() {}

  /** A text's code as a picture for the {@code src} of an image. */
  public static String picture(String text) {
    return "data:image/png;base64," + Base64.getEncoder().encodeToString(png(text));
  }

  static byte[] png(String text) {
    BitMatrix code = code(text, ErrorCorrectionLevel.M);
    if (code.getWidth() - 2 * QUIET > FINE) {
      code = code(text, ErrorCorrectionLevel.L);
    }
    int side = code.getWidth() * PIXELS;
    BufferedImage picture = new BufferedImage(side, side, BufferedImage.TYPE_BYTE_BINARY);
    for (int y = 0; y < side; y++) {
      for (int x = 0; x < side; x++) {
        picture.setRGB(x, y, code.get(x / PIXELS, y / PIXELS) ? 0 : 0xffffff);
      }
    }
    try {
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      ImageIO.write(picture, "png", bytes);
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static BitMatrix code(String text, ErrorCorrectionLevel correction) {
    try {
      return new QRCodeWriter()
          .encode(
              text,
              BarcodeFormat.QR_CODE,
              0,
              0,
              Map.of(EncodeHintType.ERROR_CORRECTION, correction, EncodeHintType.MARGIN, QUIET));
    } catch (WriterException e) {
      throw new IllegalArgumentException("A QR code can't hold " + text.length() + " letters", e);
    }
  }
}
