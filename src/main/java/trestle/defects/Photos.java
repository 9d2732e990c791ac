package trestle.defects;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Semaphore;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Upload;
import trestle.web.Viewer;

/** Pictures that records name: looked into before they are kept, shown to their own. */
@ApplicationScoped
public class Photos {
  public static final int MOST_BYTES = 10 << 20;
  public static final int MOST_PHOTOS = 12;

  /** The field of the form that carries them. */
  public static final String FIELD = "photos";

  @Inject PhotoRepository repository;
  @Inject Photos walled;
  @Inject InstantSource clock;

  /** Looking into a picture takes memory: never many at once. */
  private final Semaphore looking = new Semaphore(2);

  /** A kept picture, or its thumbnail. */
  public record Kept(String mediaType, byte[] bytes) {}

  /**
   * Looks into what was sent. Call it before the transaction that files them: it takes its time.
   *
   * @throws Refusal with one sentence for each file that is no picture, damaged or too large
   */
  public List<PhotoDraft> prepare(Viewer viewer, List<Upload.File> files) {
    List<Refusal.Reason> faults = new ArrayList<>();
    List<PhotoDraft> photos = new ArrayList<>();
    if (files.size() > MOST_PHOTOS) {
      throw new Refusal(FIELD, "Photos must be at most " + MOST_PHOTOS + " at once.");
    }
    for (Upload.File file : files) {
      try {
        photos.add(draft(viewer, file));
      } catch (IllegalArgumentException e) {
        faults.add(
            new Refusal.Reason(FIELD, "Photo “" + file.name() + "” " + e.getMessage() + "."));
      }
    }
    if (!faults.isEmpty()) {
      throw new Refusal(faults);
    }
    return photos;
  }

  private PhotoDraft draft(Viewer viewer, Upload.File file) {
    if (file.size() > MOST_BYTES) {
      throw new IllegalArgumentException("is larger than 10 MB");
    }
    return prepare(viewer, file.bytes());
  }

  /**
   * Looks into one picture.
   *
   * @throws IllegalArgumentException with the end of a sentence that begins with its name
   */
  public PhotoDraft prepare(Viewer viewer, byte[] bytes) {
    String source = sha256(bytes);
    String known = walled.keptFrom(viewer, source);
    if (known != null) {
      return new PhotoDraft(source, known, null);
    }
    Picture picture = lookedInto(bytes);
    return new PhotoDraft(source, sha256(picture.bytes()), picture);
  }

  private Picture lookedInto(byte[] bytes) {
    looking.acquireUninterruptibly();
    try {
      return Pictures.of(bytes);
    } finally {
      looking.release();
    }
  }

  /** Under which hash exactly this file is kept already, or null. */
  @Reading
  String keptFrom(Viewer viewer, String sourceSha256) {
    return repository.keptFrom(sourceSha256);
  }

  /** Keeps pictures with the record that is filed in the same transaction; their hashes. */
  @Filing
  public List<String> keep(Viewer viewer, List<PhotoDraft> photos) {
    for (PhotoDraft photo : photos) {
      if (photo.picture() != null) {
        repository.keep(viewer, photo, clock.instant());
      }
    }
    return photos.stream().map(PhotoDraft::sha256).distinct().toList();
  }

  /** How large those are that are kept, by hash. */
  @Reading
  public Map<String, Long> sizes(Viewer viewer, Collection<String> sha256s) {
    return repository.sizes(sha256s);
  }

  /**
   * Keeps a picture as another operator kept it, byte for byte.
   *
   * @throws IllegalArgumentException with the end of a sentence that begins with its name
   */
  @Filing
  public void takeUp(Viewer viewer, byte[] bytes) {
    String sha256 = sha256(bytes);
    Picture seen = lookedInto(bytes);
    Picture same =
        new Picture(mediaType(bytes), seen.width(), seen.height(), bytes, seen.thumbnail());
    repository.keep(viewer, new PhotoDraft(sha256, sha256, same), clock.instant());
  }

  private static String mediaType(byte[] bytes) {
    return (bytes[0] & 0xff) == 0x89 ? "image/png" : "image/jpeg";
  }

  /**
   * @throws NotHere when the viewer's operator has no such picture
   */
  @Reading
  public Kept photo(Viewer viewer, String sha256) {
    return repository.photo(sha256).orElseThrow(Photos::none);
  }

  @Reading
  public Kept thumbnail(Viewer viewer, String sha256) {
    return repository.thumbnail(sha256).orElseThrow(Photos::none);
  }

  private static NotHere none() {
    return new NotHere("There is no such photo here.");
  }

  private static String sha256(byte[] bytes) {
    try {
      return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
    } catch (GeneralSecurityException e) {
      throw new IllegalStateException(e);
    }
  }
}
