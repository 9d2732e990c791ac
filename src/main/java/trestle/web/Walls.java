package trestle.web;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.narayana.jta.QuarkusTransactionException;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.interceptor.InvocationContext;
import jakarta.transaction.TransactionSynchronizationRegistry;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.Callable;

/**
 * Opens every transaction by saying for which operator and person it speaks, locally to that
 * transaction: row-level security shows nothing else, and a pooled connection carries nothing over.
 */
@ApplicationScoped
public class Walls {
  private static final String SPEAKS_FOR = "trestle.speaks-for";

  @Inject WallsRepository repository;
  @Inject TransactionSynchronizationRegistry registry;

  private record Speaker(UUID operatorId, boolean readOnly) {}

  public <T> T filing(Viewer viewer, Callable<T> work) throws Exception {
    return within(viewer, false, work);
  }

  public <T> T reading(Viewer viewer, Callable<T> work) throws Exception {
    return within(viewer, true, work);
  }

  private <T> T within(Viewer viewer, boolean readOnly, Callable<T> work) throws Exception {
    if (QuarkusTransaction.isActive()) {
      return joined(viewer, readOnly, work);
    }
    try {
      return QuarkusTransaction.requiringNew().call(() -> opened(viewer, readOnly, work));
    } catch (QuarkusTransactionException e) {
      if (e.getCause() instanceof Exception cause) {
        throw cause;
      }
      throw e;
    }
  }

  private <T> T opened(Viewer viewer, boolean readOnly, Callable<T> work) throws Exception {
    repository.speakFor(viewer.operatorId(), viewer.personId(), readOnly);
    registry.putResource(SPEAKS_FOR, new Speaker(viewer.operatorId(), readOnly));
    return work.call();
  }

  private <T> T joined(Viewer viewer, boolean readOnly, Callable<T> work) throws Exception {
    Speaker speaker = (Speaker) registry.getResource(SPEAKS_FOR);
    if (speaker == null || !Objects.equals(speaker.operatorId(), viewer.operatorId())) {
      throw new IllegalStateException("A transaction speaks for one operator only");
    }
    if (speaker.readOnly() && !readOnly) {
      throw new IllegalStateException("A reading use case may not call a filing one");
    }
    return work.call();
  }

  static Viewer viewerOf(InvocationContext call) {
    if (call.getParameters().length > 0 && call.getParameters()[0] instanceof Viewer viewer) {
      return viewer;
    }
    throw new IllegalStateException(call.getMethod() + " must take the Viewer first");
  }
}
