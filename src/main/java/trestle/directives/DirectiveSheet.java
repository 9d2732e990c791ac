package trestle.directives;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;

/**
 * A directive or bulletin as stated in one view.
 *
 * @param id of the directive, the same through its revisions
 * @param rowId of the revision: what a form that revises it names
 * @param revision as printed, or ""
 * @param fileSha256 of the text itself, or null
 * @param supersedes the directives that it takes the place of
 * @param reason why it was revised, or null
 */
public record DirectiveSheet(
    UUID id,
    UUID rowId,
    long sequence,
    String issuer,
    String number,
    boolean bulletin,
    boolean mandatory,
    String revision,
    LocalDate effectiveOn,
    String title,
    String textReference,
    String fileSha256,
    List<UUID> supersedes,
    boolean withdrawn,
    String reason,
    Instant recordedAt,
    UUID recordedBy) {
  static final String DIRECTIVE = "directive";
  static final String BULLETIN = "bulletin";

  /** "X-2021-11, revision 2". */
  public String name() {
    return revision.isEmpty() ? number : number + ", revision " + revision;
  }

  public String kindWords() {
    return bulletin ? "Service bulletin" : "Airworthiness directive";
  }

  public String link() {
    return "/directives/" + id;
  }
}
