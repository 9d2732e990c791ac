package trestle.people;

import io.quarkus.narayana.jta.QuarkusTransaction;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.InstantSource;
import trestle.web.Refusal;
import trestle.web.Viewer;

/** A person who is signed in proves again, with their password, that it is they who sign. */
@ApplicationScoped
public class IdentityProof {
  @Inject SignIns signIns;
  @Inject InstantSource clock;

  /**
   * A wrong password is counted and braked like one at signing in. Prove before the use case that
   * signs, never within it: what it files may be rolled back, the count must not be.
   *
   * @throws Refusal at {@code password}
   */
  public Proof prove(Viewer viewer, String password) {
    if (QuarkusTransaction.isActive()) {
      throw new IllegalStateException("Identity is proven before the transaction that signs");
    }
    if (password == null || password.isEmpty()) {
      throw new Refusal("password", "Password must not be blank: it is how you sign.");
    }
    String refusal = signIns.refusalOfPassword(Anyone.VIEWER, viewer.personId(), password);
    if (refusal != null) {
      throw new Refusal("password", refusal);
    }
    return new Proof(viewer.personId(), clock.instant());
  }
}
