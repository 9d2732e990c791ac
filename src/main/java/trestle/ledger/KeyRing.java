package trestle.ledger;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.ZoneOffset;
import java.util.Optional;
import java.util.UUID;
import org.eclipse.microprofile.config.inject.ConfigProperty;
import trestle.formats.Base32;

/**
 * The operators' signing keys. The public half is filed; the private half lies sealed in the
 * database and opens with a secret of the installation that is kept elsewhere. Where that secret is
 * another (a backup restored on another machine) a new key is made and filed.
 */
@ApplicationScoped
class KeyRing {
  @Inject LedgerRepository repository;
  @Inject Ledger ledger;
  private final Seal seal;

  @Inject
  KeyRing(@ConfigProperty(name = "trestle.ledger.key") Optional<String> secret) {
    // Without a secret of the installation the keys of this run open in this run alone.
    seal = new Seal(secret.orElseGet(() -> Base32.of(Ed25519.make().secret())));
  }

  /** A key that can sign. */
  record Opened(byte[] secret, byte[] shown) {}

  /** A filed public key with its closed private half, if that is still there. */
  record Kept(UUID id, String publicKey, byte[] sealed) {}

  /** The newest key that opens here; made and filed when there is none. */
  Opened signer(Act act) {
    return repository.keys(act.operatorId()).stream()
        .flatMap(kept -> open(act.operatorId(), kept).stream())
        .findFirst()
        .orElseGet(() -> made(act));
  }

  private Optional<Opened> open(UUID operatorId, Kept kept) {
    return seal.open(kept.sealed(), belongsTo(operatorId, kept.publicKey()))
        .map(secret -> new Opened(secret, Base32.parse(kept.publicKey())));
  }

  /** Asked by one who only reads, it files in a transaction of its own. */
  private Opened made(Act act) {
    if (!repository.isReadOnly()) {
      return file(act);
    }
    return QuarkusTransaction.requiringNew()
        .call(
            () -> {
              repository.speakFor(act);
              return file(act);
            });
  }

  /** Makes a key and files its public half. */
  Opened file(Act act) {
    Ed25519.Pair pair = Ed25519.make();
    LedgerKey key = new LedgerKey();
    key.publicKey = Base32.of(pair.shown());
    key.happened(act.recordedAt(), act.recordedAt().atOffset(ZoneOffset.UTC).toLocalDate());
    ledger.file(act, key);
    LedgerKeySeal sealed = new LedgerKeySeal();
    sealed.operatorId = act.operatorId();
    sealed.keyId = key.id;
    sealed.sealed = seal.close(pair.secret(), belongsTo(act.operatorId(), key.publicKey));
    repository.persist(sealed);
    return new Opened(pair.secret(), pair.shown());
  }

  private static String belongsTo(UUID operatorId, String publicKey) {
    return operatorId + " " + publicKey;
  }
}
