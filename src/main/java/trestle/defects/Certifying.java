package trestle.defects;

import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * What an engineer signs for work, and under what; and how records of work follow one another: a
 * correction, one that takes another away, one that is filed anew after that.
 */
@ApplicationScoped
class Certifying {
  static final String RECTIFIED =
      "I certify that this defect was put right as stated here, to the data named here. This is not"
          + " yet a release of the aircraft.";

  static final String INSPECTED =
      "I certify that the inspection this event asks for was carried out as stated here, to the"
          + " data named here. This is not yet a release of the aircraft.";

  static final String DEFERRED =
      "I have decided that this aircraft may be flown with this defect until the limit and on the"
          + " conditions stated here.";

  static final String TRIAGED =
      "I have looked at this defect, and this is what it means for flight.";

  static final String TAKEN_AWAY =
      "I declare that the record stated here should not have been filed, for the reason stated"
          + " here, and takes no effect.";

  @Inject DefectRepository repository;
  @Inject Members members;
  @Inject Signatures signatures;
  @Inject Fleet fleet;
  @Inject InstantSource clock;

  /**
   * What is certified, and how its form calls it.
   *
   * @param field of the words
   * @param notBefore the day on which there was something to be done
   * @param since what happened that day: "the defect was found"
   */
  record Asked(String field, String label, LocalDate notBefore, String since) {}

  /**
   * The viewer's own licence for the work, good on its day.
   *
   * @throws Refusal when there is none such, or something is not said
   */
  Members.LicenceLine licence(Viewer viewer, CertifiedWork work, Asked asked) {
    if (work.words().isEmpty() || work.words().length() > 4_000) {
      throw new Refusal(
          asked.field(), asked.label() + " must be said, in at most 4,000 characters.");
    }
    if (work.dataReference().isEmpty() || work.dataReference().length() > 200) {
      throw new Refusal(
          "data-reference", "Data must name the approved data it was done to, in 200 characters.");
    }
    done(viewer, work.at(), asked);
    return licence(viewer, work.licenceNumber(), viewer.dateOf(work.at()));
  }

  /**
   * @throws Refusal when work is said to be done in the future, or before there was any to do
   */
  void done(Viewer viewer, Instant at, Asked asked) {
    if (at.isAfter(clock.instant())) {
      throw new Refusal("on", "The day it was done must not be in the future.");
    }
    if (viewer.dateOf(at).isBefore(asked.notBefore())) {
      throw new Refusal("on", "The day it was done must not be before " + asked.since() + ".");
    }
  }

  private Members.LicenceLine licence(Viewer viewer, String number, LocalDate day) {
    return members.licencesOf(viewer, viewer.personId(), day).stream()
        .filter(licence -> licence.number().equals(number.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new Refusal(
                    "licence",
                    "Licence must be one of yours that was good on the day of the work."));
  }

  /**
   * What a form has filed already: the same form with the same content answers the same.
   *
   * @throws Stale where it has filed something else
   */
  <T extends CertifiedRecord> Optional<UUID> filedBefore(T row, Class<T> kind, UUID formKey) {
    row.fromForm(formKey);
    return repository
        .ofForm(kind, formKey)
        .map(
            before -> {
              if (!before.saysAs(row)) {
                throw new Stale("This form has filed something already, with other content.");
              }
              return before.id();
            });
  }

  /**
   * The row after which something is certified anew, or null.
   *
   * @param rows of the same thing, as filed
   * @throws Stale with that sentence where the last one stands
   */
  static UUID afterVoided(List<? extends CertifiedRecord> rows, String sentence) {
    CertifiedRecord last = rows.isEmpty() ? null : rows.get(rows.size() - 1);
    if (last != null && !last.isVoid()) {
      throw new Stale(sentence);
    }
    return last == null ? null : last.id();
  }

  /**
   * @throws Stale when the row was corrected or taken away meanwhile
   */
  void stillStands(CertifiedRecord original) {
    if (original.isVoid() || repository.isCorrected(original.getClass(), original.id())) {
      throw new Stale("Someone has corrected this record since you opened this form.");
    }
  }

  /**
   * Files a row with an engineer's signature: for the work, or for taking it away.
   *
   * @param shown what the page said it is about
   */
  UUID sign(
      Viewer viewer,
      Proof proof,
      CertifiedRecord row,
      String statement,
      String licence,
      ObjectNode shown) {
    shown.put("aircraft", fleet.sheet(viewer, row.aircraftId, View.EVERYTHING).registration());
    shown.put("done", row.words());
    shown.put("data-reference", row.dataReference);
    shown.put("on", row.happenedOn().toString());
    if (row.isVoid()) {
      shown.put("reason", row.reason());
    }
    signatures.file(
        viewer, proof, Signer.engineer(licence), List.of(Signing.of(row, statement, shown)));
    return row.id();
  }

  /**
   * @throws Refusal without a reason why a record changes
   */
  static void reasonNeeded(String reason) {
    if (reason == null || reason.isBlank()) {
      throw new Refusal("reason", "Reason is needed: say why it changes.");
    }
  }
}
