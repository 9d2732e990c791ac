package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.time.InstantSource;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * The papers that records of compliance name, as files: a certificate, a policy, a release. What
 * they are is told from what is in them; they are kept as they came, and shown to their own.
 */
@ApplicationScoped
public class DocumentFiles {
  public static final int MOST_BYTES = 10 << 20;

  /** Of one record. */
  public static final int MOST_FILES = 10;

  /** The field of the form that carries them. */
  public static final String FIELD = "file";

  /** The field that says which of those filed before stay. */
  static final String STAYS = "stays";

  @Inject DocumentFileRepository repository;
  @Inject InstantSource clock;

  /** A file that is kept, or is to be. */
  public record Draft(String sha256, String name, String mediaType, byte[] bytes) {

    public boolean isPicture() {
      return mediaType.startsWith("image/");
    }
  }

  /**
   * Looks at what was sent.
   *
   * @throws Refusal when it is no PDF, JPEG or PNG, or larger than 10 MB
   */
  public static Draft prepare(String name, byte[] bytes) {
    if (bytes.length > MOST_BYTES) {
      throw new Refusal(FIELD, "File must be at most 10 MB.");
    }
    String mediaType = mediaType(bytes);
    if (mediaType == null) {
      throw new Refusal(
          FIELD, "File must be a PDF or a JPEG or PNG picture; “" + name + "” is none.");
    }
    return new Draft(sha256(bytes), name.isBlank() ? "document" : name, mediaType, bytes);
  }

  /** Keeps a file with the record that is filed in the same transaction. */
  @Filing
  void keep(Viewer viewer, Draft file) {
    repository.keep(viewer, file, clock.instant());
  }

  /** The files of some records, by record; at most one statement. */
  Map<UUID, List<Paper>> papers(Collection<Compliance> rows) {
    Set<String> sha256s = new HashSet<>();
    rows.forEach(row -> sha256s.addAll(row.files()));
    Map<String, String> names = sha256s.isEmpty() ? Map.of() : repository.names(sha256s);
    Map<UUID, List<Paper>> papers = new HashMap<>();
    rows.forEach(
        row ->
            papers.put(
                row.id(),
                row.files().stream().map(sha -> new Paper(sha, names.get(sha))).toList()));
    return papers;
  }

  /** How large those are that are kept, by hash. */
  @Reading
  public Map<String, Long> sizes(Viewer viewer, Collection<String> sha256s) {
    return repository.sizes(sha256s);
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

  private static String mediaType(byte[] bytes) {
    if (begins(bytes, '%', 'P', 'D', 'F', '-')) {
      return "application/pdf";
    }
    if (begins(bytes, 0xff, 0xd8, 0xff)) {
      return "image/jpeg";
    }
    return begins(bytes, 0x89, 'P', 'N', 'G', 0x0d, 0x0a, 0x1a, 0x0a) ? "image/png" : null;
  }

  private static boolean begins(byte[] bytes, int... with) {
    if (bytes.length <= with.length) {
      return false;
    }
    for (int i = 0; i < with.length; i++) {
      if ((bytes[i] & 0xff) != with[i]) {
        return false;
      }
    }
    return true;
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }
}
