package trestle.programme;

/**
 * A file that a record of work names.
 *
 * @param name as it was called when it was sent
 */
public record Paper(String sha256, String name) {

  public String link() {
    return "/compliance-files/" + sha256;
  }
}
