package trestle.formats;

import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.util.XRLog;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.util.Calendar;
import java.util.Locale;
import java.util.TimeZone;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * Well-formed XHTML, with its style in it, as a PDF: text that can be selected, fonts embedded, no
 * file or host asked for anything.
 */
public final class Pdf {
  private static final String SANS = "Atkinson Hyperlegible Next";
  private static final String MONO = "Atkinson Hyperlegible Mono";

  static {
    XRLog.setLoggingEnabled(false);
  }

  private Pdf() {}

  public static byte[] of(String xhtml) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PdfRendererBuilder builder = new PdfRendererBuilder();
    builder.useFastMode();
    font(builder, "AtkinsonHyperlegibleNext_400Regular", SANS, 400);
    font(builder, "AtkinsonHyperlegibleNext_700Bold", SANS, 700);
    font(builder, "AtkinsonHyperlegibleMono_400Regular", MONO, 400);
    builder.useUriResolver((base, uri) -> uri.startsWith("data:image/png;") ? uri : null);
    builder.withHtmlContent(xhtml, null);
    builder.withProducer("Trestle");
    builder.toStream(bytes);
    try {
      builder.run();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  /** The same text made at the same moment gives the same bytes. */
  public static byte[] of(String xhtml, Instant made) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    try (PDDocument document = Loader.loadPDF(of(xhtml))) {
      Calendar moment = Calendar.getInstance(TimeZone.getTimeZone("UTC"), Locale.ROOT);
      moment.setTimeInMillis(made.toEpochMilli());
      document.getDocumentInformation().setCreationDate(moment);
      document.getDocumentInformation().setModificationDate(moment);
      document.setDocumentId(made.toEpochMilli());
      document.getDocument().getTrailer().removeItem(COSName.ID);
      document.save(bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return bytes.toByteArray();
  }

  private static void font(PdfRendererBuilder builder, String file, String family, int weight) {
    builder.useFont(() -> open(file), family, weight, FontStyle.NORMAL, true);
  }

  private static InputStream open(String file) {
    return Pdf.class.getResourceAsStream("/fonts/" + file + ".ttf");
  }
}
