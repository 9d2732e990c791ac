package trestle.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.ArrayList;
import java.util.List;

@ApplicationScoped
class RefilingRepository {
  @Inject EntityManager entities;

  /** Every kind of filed row there is. */
  List<Class<? extends Filed>> filed() {
    List<Class<? extends Filed>> types = new ArrayList<>();
    entities.getMetamodel().getEntities().stream()
        .map(entity -> entity.getJavaType())
        .filter(Filed.class::isAssignableFrom)
        .forEach(type -> types.add(type.asSubclass(Filed.class)));
    return types;
  }
}
