package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Set;
import java.util.UUID;

/**
 * One filed row of a defect.
 *
 * @param entryId the defect it states; the same through all its corrections
 * @param chapter two digits, or ""
 * @param chapterFromWords the reporter named no system: the words did
 * @param flightEntryId the journey log entry it was reported with, or null
 * @param photos the SHA-256 of each
 * @param foundOn the operator's date on which it was first written up
 * @param corrects the row it replaces, or null
 */
public record DefectSheet(
    UUID id,
    UUID entryId,
    UUID aircraftId,
    long number,
    DefectDraft defect,
    String chapter,
    boolean chapterFromWords,
    UUID flightEntryId,
    List<String> photos,
    LocalDate foundOn,
    long ledgerSeq,
    Instant recordedAt,
    UUID recordedBy,
    UUID corrects,
    String reason) {

  private static final Set<String> CONTROLS = Set.of("27", "76");

  static DefectSheet of(Defect row) {
    return new DefectSheet(
        row.id(),
        row.entryId,
        row.aircraftId,
        row.number,
        row.draft(),
        row.chapter,
        row.chapterFrom.equals(Defect.FROM_WORDS),
        row.flightEntryId,
        List.of(row.photos),
        row.happenedOn(),
        row.ledgerSeq(),
        row.recordedAt(),
        row.recordedBy(),
        row.corrects(),
        row.reason());
  }

  /** Flight controls or engine controls: a second person inspects work on them. */
  public boolean isOfControls() {
    return CONTROLS.contains(chapter);
  }

  public boolean mustNotFly() {
    return defect.judgement() == Judgement.MUST_NOT_FLY;
  }

  /** "No. 231". */
  public String no() {
    return "No. " + number;
  }

  public String link() {
    return "/defects/" + entryId;
  }

  /** Its words cut to one line. */
  public String brief() {
    return Brief.of(defect.words());
  }
}
