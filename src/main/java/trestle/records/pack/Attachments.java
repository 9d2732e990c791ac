package trestle.records.pack;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import trestle.defects.Photos;
import trestle.directives.DirectiveFiles;
import trestle.programme.DocumentFiles;
import trestle.web.Viewer;

/** The files that records name, each in the room that keeps it. */
@ApplicationScoped
class Attachments {
  static final String PHOTO = "photo";
  static final String DOCUMENT = "document";
  static final String DIRECTIVE = "directive";

  @Inject Photos photos;
  @Inject DocumentFiles documents;
  @Inject DirectiveFiles directives;

  /** A file with what it is called where it is kept. */
  record Kept(String kind, String name, String mediaType, byte[] bytes) {

    String extension() {
      return switch (mediaType) {
        case "image/jpeg" -> ".jpg";
        case "image/png" -> ".png";
        default -> ".pdf";
      };
    }
  }

  /** Sizes in bytes, by hash. */
  Map<String, Long> sizes(Viewer viewer, Map<String, String> asked) {
    Map<String, Long> sizes = new HashMap<>();
    sizes.putAll(photos.sizes(viewer, of(asked, PHOTO)));
    sizes.putAll(documents.sizes(viewer, of(asked, DOCUMENT)));
    sizes.putAll(directives.sizes(viewer, of(asked, DIRECTIVE)));
    return sizes;
  }

  Kept read(Viewer viewer, String sha256, String kind) {
    switch (kind) {
      case PHOTO -> {
        Photos.Kept kept = photos.photo(viewer, sha256);
        return new Kept(kind, "", kept.mediaType(), kept.bytes());
      }
      case DOCUMENT -> {
        DocumentFiles.Draft kept = documents.file(viewer, sha256);
        return new Kept(kind, kept.name(), kept.mediaType(), kept.bytes());
      }
      default -> {
        DirectiveFiles.Draft kept = directives.file(viewer, sha256);
        return new Kept(kind, kept.name(), "application/pdf", kept.bytes());
      }
    }
  }

  /**
   * Keeps a file that came in a pack.
   *
   * @throws IllegalArgumentException with the end of a sentence that begins with its name
   * @throws trestle.web.Refusal where it is none of what the room keeps
   */
  void takeUp(Viewer viewer, Kept file) {
    switch (file.kind()) {
      case PHOTO -> photos.takeUp(viewer, file.bytes());
      case DOCUMENT -> documents.takeUp(viewer, DocumentFiles.prepare(file.name(), file.bytes()));
      default -> directives.takeUp(viewer, DirectiveFiles.prepare(file.name(), file.bytes()));
    }
  }

  private static List<String> of(Map<String, String> asked, String kind) {
    return asked.entrySet().stream()
        .filter(one -> one.getValue().equals(kind))
        .map(Map.Entry::getKey)
        .toList();
  }
}
