package trestle.signing;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.ledger.Act;
import trestle.ledger.Filed;
import trestle.ledger.Ledger;
import trestle.people.Members;
import trestle.people.Members.LicenceLine;
import trestle.people.Proof;
import trestle.web.Filing;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Viewer;

/**
 * Signing: the records of one press are filed together with a signature under each. The proof of
 * identity comes first and on its own ({@link trestle.people.IdentityProof}), so that a wrong
 * password is counted whatever becomes of the filing.
 */
@ApplicationScoped
public class Signatures {
  /** A proof serves the press it was given for, not the rest of the day. */
  static final Duration PROOF_LASTS = Duration.ofMinutes(2);

  @Inject SignatureRepository repository;
  @Inject Members members;
  @Inject Ledger ledger;
  @Inject InstantSource clock;

  /**
   * Files records, each signed with its statement by the viewer. Call it last, in place of {@link
   * Ledger#file}.
   *
   * @param also rows that are filed with them unsigned
   * @return the signatures' ids, in the order of the signings
   * @throws Refusal at {@code licence} where a licence is needed, or the one named is not the
   *     viewer's or not good today; at {@code password} where the proof is too old
   */
  @Filing
  public List<UUID> file(
      Viewer viewer, Proof proof, Signer signer, List<Signing> signings, Filed... also) {
    Instant now = clock.instant();
    checkProof(viewer, proof, now);
    if (!viewer.is(signer.role())) {
      throw new Refusal("", "You may not sign this as " + signer.role().word() + ".");
    }
    LicenceLine licence = licence(viewer, signer, viewer.dateOf(now));
    List<Filed> rows = new ArrayList<>(List.of(also));
    List<UUID> ids = new ArrayList<>();
    signings.forEach(signing -> rows.add(signing.record()));
    for (Signing signing : signings) {
      Signature row = row(viewer, signer, licence, signing);
      row.happened(now, viewer.dateOf(now));
      rows.add(row);
      ids.add(row.id());
    }
    ledger.file(new Act(viewer.operatorId(), viewer.personId(), now), rows);
    return ids;
  }

  /** The viewer's licences that are good on a day: what they may choose to sign under. */
  @Reading
  public List<LicenceLine> licences(Viewer viewer, LocalDate day) {
    return members.licencesOf(viewer, viewer.personId(), day);
  }

  /** The signatures under records, by record, each in its order. */
  @Reading
  public Map<UUID, List<SignatureLine>> under(Viewer viewer, Collection<UUID> records) {
    Map<UUID, List<SignatureLine>> lines = new HashMap<>();
    if (!records.isEmpty()) {
      for (Signature row : repository.under(records)) {
        lines.computeIfAbsent(row.signsRecord, id -> new ArrayList<>()).add(row.line());
      }
    }
    return lines;
  }

  @Reading
  public SignatureLine one(Viewer viewer, UUID id) {
    return repository
        .one(id)
        .map(Signature::line)
        .orElseThrow(() -> new NotHere("There is no such signature here."));
  }

  private static void checkProof(Viewer viewer, Proof proof, Instant now) {
    if (!proof.isOf(viewer.personId())) {
      throw new IllegalStateException("A proof is of the person who signs");
    }
    if (proof.at().plus(PROOF_LASTS).isBefore(now)) {
      throw new Refusal("password", "Password must be given again: signing took too long.");
    }
  }

  private LicenceLine licence(Viewer viewer, Signer signer, LocalDate today) {
    if (signer.licenceNumber().isEmpty()) {
      if (signer.licenceNeeded()) {
        throw new Refusal("licence", "Licence is needed: choose the one you sign under.");
      }
      return null;
    }
    return licences(viewer, today).stream()
        .filter(licence -> licence.number().equals(signer.licenceNumber()))
        .findFirst()
        .orElseThrow(
            () -> new Refusal("licence", "Licence must be one of yours that is good today."));
  }

  private static Signature row(Viewer viewer, Signer signer, LicenceLine licence, Signing signing) {
    Signature row = new Signature();
    row.aircraftId = signing.record().ledgerAircraft();
    row.signsKind = signing.kind();
    row.signsRecord = signing.record().id();
    row.ordinal = signing.ordinal();
    row.personId = viewer.personId();
    row.personName = viewer.personName();
    row.role = signer.role().word();
    row.licenceNumber = licence == null ? "" : licence.number();
    row.licenceKind = licence == null ? "" : licence.kind();
    row.statement = signing.statement();
    row.signed = signing.signed();
    row.sha256 = Signing.sha256(row.signed);
    return row;
  }
}
