package trestle.defects;

import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import trestle.ledger.Filed;
import trestle.ledger.Kind;
import trestle.ledger.NamesFiles;

/** One row of a defect: as first reported, or as a correction states it. */
@Entity
@Table(name = "defect")
@Kind("defect")
class Defect extends Filed {
  static final String FROM_REPORTER = "reporter";
  static final String FROM_WORDS = "words";

  UUID aircraftId;
  UUID entryId;
  long number;
  String words;
  String chapter;
  String chapterFrom;
  String place;
  String phase;
  UUID componentId;
  String judgement;
  String noticedBy;
  boolean indicationMissed;
  String indicationPlace;
  UUID flightEntryId;

  @NamesFiles(table = "attachment")
  String[] photos;

  static Defect of(
      UUID aircraftId, DefectDraft draft, List<String> photos, UUID flightEntryId, LocalDate on) {
    Defect row = new Defect();
    row.aircraftId = aircraftId;
    row.entryId = row.id();
    row.words = draft.words();
    row.chapter = draft.chapter() == null ? "" : draft.chapter();
    row.chapterFrom = draft.chapter() == null ? "" : FROM_REPORTER;
    row.place = draft.place();
    row.phase = draft.phase() == null ? "" : draft.phase().word();
    row.componentId = draft.componentId();
    row.judgement = draft.judgement().word();
    row.noticedBy = draft.noticedBy() == null ? "" : draft.noticedBy().word();
    row.indicationMissed = draft.indicationMissed();
    row.indicationPlace = draft.indicationPlace();
    row.flightEntryId = flightEntryId;
    row.photos = photos.toArray(String[]::new);
    row.happened(draft.discoveredAt(), on);
    return row;
  }

  /** Takes the chapter that the words themselves name, where the reporter named none. */
  void chapterFromWords() {
    if (chapter.isEmpty()) {
      Chapters.namedBy(words)
          .ifPresent(
              named -> {
                chapter = named.code();
                chapterFrom = FROM_WORDS;
              });
    }
  }

  /** The reported content, equal for equal reports. */
  DefectDraft draft() {
    return new DefectDraft(
        words,
        chapterFrom.equals(FROM_REPORTER) ? chapter : null,
        place,
        phase.isEmpty() ? null : Phase.parse(phase),
        componentId,
        Judgement.parse(judgement),
        noticedBy.isEmpty() ? null : NoticedBy.parse(noticedBy),
        indicationMissed,
        indicationPlace,
        happenedAt());
  }

  @Override
  public UUID ledgerAircraft() {
    return aircraftId;
  }
}
