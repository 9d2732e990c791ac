package trestle.programme;

import java.util.List;
import java.util.UUID;
import trestle.web.Option;

/**
 * What a compliance form is about.
 *
 * @param corrects the record that is put right, or null
 */
public record ComplianceAbout(
    UUID requirementId,
    String title,
    String subject,
    UUID aircraft,
    UUID component,
    String back,
    List<String> covers,
    ComplianceLine corrects) {

  /** The files that were filed with the record that is put right. */
  public List<Option> filed() {
    return corrects == null
        ? List.of()
        : corrects.papers().stream()
            .map(paper -> new Option(paper.sha256(), paper.name()))
            .toList();
  }
}
