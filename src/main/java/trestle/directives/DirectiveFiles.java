package trestle.directives;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.time.InstantSource;
import java.util.Collection;
import java.util.HexFormat;
import java.util.Map;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** The texts of directives as files: PDF only, kept with the records, shown to their own. */
@ApplicationScoped
public class DirectiveFiles {
  public static final int MOST_BYTES = 10 << 20;

  /** The field of the form that carries it. */
  public static final String FIELD = "text";

  @Inject DirectiveRepository repository;
  @Inject InstantSource clock;

  /** A file that is kept, or is to be. */
  public record Draft(String sha256, String name, byte[] bytes) {}

  /**
   * Looks at what was sent.
   *
   * @throws Refusal when it is no PDF or larger than 10 MB
   */
  public static Draft prepare(String name, byte[] bytes) {
    if (bytes.length > MOST_BYTES) {
      throw new Refusal(FIELD, "Text must be at most 10 MB.");
    }
    byte[] begins = "%PDF-".getBytes(StandardCharsets.US_ASCII);
    boolean pdf =
        bytes.length > begins.length
            && java.util.Arrays.equals(bytes, 0, begins.length, begins, 0, begins.length);
    if (!pdf) {
      throw new Refusal(FIELD, "Text must be a PDF file; “" + name + "” is none.");
    }
    return new Draft(sha256(bytes), name.isBlank() ? "text.pdf" : name, bytes);
  }

  /** Keeps a file with the record that is filed in the same transaction. */
  @Filing
  void keep(Viewer viewer, Draft file) {
    repository.keep(viewer, file, clock.instant());
  }

  /** How large those are that are kept, by hash. */
  @Reading
  public Map<String, Long> sizes(Viewer viewer, Collection<String> sha256s) {
    return repository.fileSizes(sha256s);
  }

  /** Keeps a file as another operator kept it. */
  @Filing
  public void takeUp(Viewer viewer, Draft file) {
    keep(viewer, file);
  }

  /**
   * @throws NotHere when the viewer's operator has no such file
   */
  @Reading
  public Draft file(Viewer viewer, String sha256) {
    return repository.file(sha256).orElseThrow(() -> new NotHere("There is no such file here."));
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }
}
