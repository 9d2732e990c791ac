package trestle.records;

import com.google.zxing.BinaryBitmap;
import com.google.zxing.DecodeHintType;
import com.google.zxing.RGBLuminanceSource;
import com.google.zxing.ReaderException;
import com.google.zxing.common.HybridBinarizer;
import com.google.zxing.qrcode.QRCodeReader;
import java.awt.image.BufferedImage;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;

/** Reads a proof off a printed page, as a person copies it and as a camera sees it. */
public final class ProofOnPaper {
  private static final Pattern TEXT = Pattern.compile("(TRESTLE-PROOF-1[A-Z0-9.:\\s-]+)\\(end\\)");

  public static String text(byte[] pdf) throws Exception {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      Matcher text = TEXT.matcher(new PDFTextStripper().getText(document));
      if (!text.find()) {
        throw new AssertionError("No proof is printed");
      }
      return text.group(1).replaceAll("\\s", "");
    }
  }

  /** The code on the last page; a camera, too, looks more than once. */
  public static String code(byte[] pdf) throws Exception {
    for (int dots : new int[] {200, 250, 300, 350, 400}) {
      try {
        return code(pdf, dots);
      } catch (ReaderException e) {
        System.out.println("Not read at " + dots + " dots an inch: " + e);
      }
    }
    throw new AssertionError("The code can't be read");
  }

  private static String code(byte[] pdf, int dots) throws Exception {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      BufferedImage page =
          new PDFRenderer(document).renderImageWithDPI(document.getNumberOfPages() - 1, dots);
      int[] pixels = page.getRGB(0, 0, page.getWidth(), page.getHeight(), null, 0, page.getWidth());
      BinaryBitmap bitmap =
          new BinaryBitmap(
              new HybridBinarizer(
                  new RGBLuminanceSource(page.getWidth(), page.getHeight(), pixels)));
      return new QRCodeReader()
          .decode(bitmap, Map.of(DecodeHintType.TRY_HARDER, Boolean.TRUE))
          .getText();
    }
  }

  private ProofOnPaper() {}
}
