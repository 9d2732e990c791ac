package trestle.defects;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import trestle.web.Refusal;

/**
 * A defect as its reporter states it.
 *
 * @param words what was seen, heard or felt
 * @param chapter the two digits of its system, or null when the reporter did not say
 * @param place where on the aircraft, or ""
 * @param phase null when not said
 * @param componentId the part it is on, or null
 * @param noticedBy null when not said
 * @param indicationMissed an indication was there and nobody saw it
 * @param indicationPlace where that indication sits, or ""
 * @param discoveredAt when it was first written up: the clock of every deferral counts from that
 *     day
 */
public record DefectDraft(
    String words,
    String chapter,
    String place,
    Phase phase,
    UUID componentId,
    Judgement judgement,
    NoticedBy noticedBy,
    boolean indicationMissed,
    String indicationPlace,
    Instant discoveredAt) {
  static final int MOST_WORDS = 2_000;
  static final int MOST_PLACE = 120;

  public DefectDraft {
    words = words == null ? "" : words.strip();
    place = place == null ? "" : place.strip();
    indicationPlace = indicationPlace == null ? "" : indicationPlace.strip();
    Objects.requireNonNull(discoveredAt, "discoveredAt");
  }

  /** The same, found at another moment. */
  DefectDraft foundAt(Instant moment) {
    return new DefectDraft(
        words,
        chapter,
        place,
        phase,
        componentId,
        judgement,
        noticedBy,
        indicationMissed,
        indicationPlace,
        moment);
  }

  /** What is wrong with it, in itself. */
  List<Refusal.Reason> faults(Instant now) {
    List<Refusal.Reason> faults = new ArrayList<>();
    if (words.isEmpty() || words.length() > MOST_WORDS) {
      faults.add(
          new Refusal.Reason(
              "words", "What is wrong must be said, in at most 2,000 characters of plain words."));
    }
    if (chapter != null && Chapters.find(chapter).isEmpty()) {
      faults.add(new Refusal.Reason("system", "System must be one of the chapters listed."));
    }
    if (place.length() > MOST_PLACE) {
      faults.add(new Refusal.Reason("place", "Place must be at most 120 characters."));
    }
    if (judgement == null) {
      faults.add(
          new Refusal.Reason("judgement", "Say whether the aircraft can fly: only you saw it."));
    }
    if (indicationPlace.length() > MOST_PLACE) {
      faults.add(
          new Refusal.Reason(
              "indication-place", "Where the indication sits must be at most 120 characters."));
    }
    if (discoveredAt.isAfter(now)) {
      faults.add(new Refusal.Reason("found-on", "The day it was found must not be in the future."));
    }
    return faults;
  }
}
