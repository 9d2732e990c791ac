package trestle.apron;

import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.Revisions;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.ledger.View;
import trestle.people.IdentityProof;
import trestle.people.Proof;
import trestle.signing.SignatureLine;
import trestle.signing.Signatures;
import trestle.signing.Signer;
import trestle.signing.Signing;
import trestle.standing.Reason;
import trestle.web.Filing;
import trestle.web.Reading;
import trestle.web.Refusal;
import trestle.web.Stale;
import trestle.web.Viewer;

/**
 * A pilot signs the pre-flight inspection and takes the aircraft: two statements, one press, over
 * what the page showed. Nobody takes an aircraft that is held.
 */
@ApplicationScoped
class Acceptances {
  @Inject ApronRepository repository;
  @Inject PreFlights preFlights;
  @Inject UsageLines usage;
  @Inject Revisions revisions;
  @Inject IdentityProof identity;
  @Inject Signatures signatures;
  @Inject InstantSource clock;
  @Inject Acceptances self;

  /** The latest of an aircraft, each with its signature; null where there is none yet. */
  record Latest(SignatureLine inspection, SignatureLine acceptance, String aboard) {}

  /**
   * Proves who signs, then files.
   *
   * @throws Refusal at {@code password} when it is wrong, which is counted; at the whole form with
   *     the reasons when the aircraft is held; at {@code accepts} when nobody has signed a
   *     pre-flight inspection since it last flew and was last worked on
   * @throws Stale when the records no longer say what the page showed
   */
  public void sign(Viewer viewer, UUID aircraftId, AcceptanceDraft draft, String password) {
    self.file(viewer, identity.prove(viewer, password), aircraftId, draft);
  }

  @Filing
  void file(Viewer viewer, Proof proof, UUID aircraftId, AcceptanceDraft draft) {
    revisions.bump(viewer, aircraftId);
    if (isFiled(draft.formKey())) {
      return;
    }
    PreFlight shown = preFlights.locked(viewer, aircraftId);
    refuseHeld(shown);
    if (!shown.seen().equals(draft.seen())) {
      throw new Stale(
          "The records of "
              + shown.sheet().registration()
              + " have changed since you opened this page. Read it again, then sign.");
    }
    Instant now = clock.instant();
    List<Signing> signings = new ArrayList<>();
    if (draft.inspected()) {
      signings.add(inspection(viewer, shown, draft, now));
    } else if (!isInspected(viewer, shown, now)) {
      throw new Refusal(
          "accepts",
          "Acceptance needs a pre-flight inspection signed today, since it last flew and since any"
              + " work on it.");
    }
    if (draft.accepts()) {
      signings.add(acceptance(viewer, shown, draft, now));
    }
    Signer signer = Signer.pilot(draft.licence(), shown.profile().acceptanceNeedsLicence());
    signatures.file(viewer, proof, signer, signings);
  }

  @Reading
  public Latest latest(Viewer viewer, UUID aircraftId) {
    Optional<PreflightInspection> inspection =
        repository.last(PreflightInspection.class, aircraftId);
    Optional<Acceptance> acceptance = repository.last(Acceptance.class, aircraftId);
    List<UUID> ids = new ArrayList<>();
    inspection.ifPresent(row -> ids.add(row.id()));
    acceptance.ifPresent(row -> ids.add(row.id()));
    Map<UUID, List<SignatureLine>> under = signatures.under(viewer, ids);
    return new Latest(
        inspection.map(row -> under.get(row.id()).get(0)).orElse(null),
        acceptance.map(row -> under.get(row.id()).get(0)).orElse(null),
        acceptance.map(Acceptances::aboard).orElse(""));
  }

  /** "120 litres of fuel; oil engine-1 8, engine-2 7.5". */
  private static String aboard(Acceptance row) {
    String oil =
        new TreeMap<>(row.oilOnBoard)
            .entrySet().stream()
                .map(each -> each.getKey() + " " + each.getValue())
                .collect(Collectors.joining(", "));
    return row.fuelOnBoard.stripTrailingZeros().toPlainString()
        + " "
        + row.fuelUnit
        + " of fuel"
        + (oil.isEmpty() ? "" : "; oil " + oil);
  }

  private boolean isFiled(UUID formKey) {
    return repository.ofForm(Acceptance.class, formKey).isPresent()
        || repository.ofForm(PreflightInspection.class, formKey).isPresent();
  }

  private static void refuseHeld(PreFlight shown) {
    if (shown.standing().isHeld()) {
      List<Refusal.Reason> reasons = new ArrayList<>();
      reasons.add(
          new Refusal.Reason(
              "", shown.sheet().registration() + " is held and can’t be taken: " + held(shown)));
      throw new Refusal(reasons);
    }
  }

  private static String held(PreFlight shown) {
    return shown.holding().stream().map(Reason::sentence).collect(Collectors.joining(" "));
  }

  /** What was worked on after an inspection has not been inspected. */
  private boolean isInspected(Viewer viewer, PreFlight shown, Instant now) {
    UUID aircraftId = shown.sheet().id();
    UsageLine line = usage.of(viewer, aircraftId, View.asAt(viewer.dateOf(now)));
    return repository
        .last(PreflightInspection.class, aircraftId)
        .filter(row -> row.happenedOn().equals(viewer.dateOf(now)))
        .filter(row -> line.lastLanding().map(row.happenedAt()::isAfter).orElse(true))
        .filter(row -> shown.work() == null || row.happenedAt().isAfter(shown.work().at()))
        .isPresent();
  }

  private static Signing inspection(
      Viewer viewer, PreFlight shown, AcceptanceDraft draft, Instant now) {
    PreflightInspection row = new PreflightInspection();
    row.aircraftId = shown.sheet().id();
    row.reminded = shown.reminded().toArray(String[]::new);
    row.happened(now, viewer.dateOf(now));
    row.fromForm(draft.formKey());
    ObjectNode content = JsonNodeFactory.instance.objectNode();
    content.set("shown", shown.content());
    return Signing.of(row, shown.profile().statements().preFlight(), content);
  }

  private static Signing acceptance(
      Viewer viewer, PreFlight shown, AcceptanceDraft draft, Instant now) {
    Acceptance row = new Acceptance();
    row.aircraftId = shown.sheet().id();
    row.standing = shown.standing().word().word();
    row.fuelOnBoard = draft.fuel();
    row.fuelUnit = shown.sheet().particulars().fuelUnit();
    row.oilOnBoard = new TreeMap<>();
    draft.oil().forEach((at, amount) -> row.oilOnBoard.put(at, plain(amount)));
    row.remarks = draft.remarks();
    row.happened(now, viewer.dateOf(now));
    row.fromForm(draft.formKey());
    ObjectNode content = JsonNodeFactory.instance.objectNode();
    content.set("shown", shown.content());
    content.put("fuel-on-board", plain(draft.fuel()));
    content.put("fuel-unit", row.fuelUnit);
    ObjectNode oil = content.putObject("oil-on-board");
    row.oilOnBoard.forEach(oil::put);
    content.put("remarks", row.remarks);
    return Signing.of(row, shown.profile().statements().acceptance(), content);
  }

  private static String plain(java.math.BigDecimal amount) {
    return amount.signum() == 0 ? "0" : amount.stripTrailingZeros().toPlainString();
  }
}
