package trestle.directives;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;

/**
 * What a directive or bulletin says of itself, to be filed.
 *
 * @param revision as printed, or ""
 * @param effectiveOn the day it takes effect
 * @param textReference where its text is to be found, or ""
 * @param file the text itself, or null: where it is revised, the file stays
 * @param supersedes the directives that it takes the place of
 */
public record NewDirective(
    String issuer,
    String number,
    boolean bulletin,
    boolean mandatory,
    String revision,
    LocalDate effectiveOn,
    String title,
    String textReference,
    DirectiveFiles.Draft file,
    List<UUID> supersedes) {

  public NewDirective {
    supersedes = List.copyOf(supersedes);
  }

  /** A mandatory directive with nothing but what must be said. */
  public static NewDirective of(String issuer, String number, LocalDate effectiveOn, String title) {
    return new NewDirective(
        issuer, number, false, true, "", effectiveOn, title, "", null, List.of());
  }

  public NewDirective revised(String to, LocalDate effective) {
    return new NewDirective(
        issuer, number, bulletin, mandatory, to, effective, title, textReference, file, supersedes);
  }

  public NewDirective superseding(UUID... others) {
    return new NewDirective(
        issuer,
        number,
        bulletin,
        mandatory,
        revision,
        effectiveOn,
        title,
        textReference,
        file,
        List.of(others));
  }
}
