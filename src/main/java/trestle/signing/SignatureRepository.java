package trestle.signing;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManager;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

@ApplicationScoped
class SignatureRepository {
  @Inject EntityManager entities;

  Optional<Signature> one(UUID id) {
    return Optional.ofNullable(entities.find(Signature.class, id));
  }

  List<Signature> under(Collection<UUID> records) {
    return entities
        .createQuery(
            "from Signature s where s.signsRecord in :records order by s.signsRecord, s.ordinal",
            Signature.class)
        .setParameter("records", records)
        .getResultList();
  }
}
