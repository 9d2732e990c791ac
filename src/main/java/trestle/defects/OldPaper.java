package trestle.defects;

/**
 * Old papers that tell of something.
 *
 * @param transcribedFrom which paper, and where on it
 * @param signedBy whose signature it bears, or ""
 */
public record OldPaper(String transcribedFrom, String signedBy) {
  public OldPaper {
    transcribedFrom = transcribedFrom == null ? "" : transcribedFrom.strip();
    signedBy = signedBy == null ? "" : signedBy.strip();
  }
}
