package trestle.ledger.verify;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.persistence.EntityManagerFactory;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import trestle.ledger.Filed;
import trestle.ledger.verify.KeptFiles.Naming;

/** What there is to verify, as the classes of filed rows say it. */
@ApplicationScoped
class KindsRepository {
  @Inject EntityManagerFactory entities;

  /** All kinds of filed rows, in the order of their tables' names. */
  List<FiledTable> tables() {
    return filed().map(FiledTable::of).sorted(Comparator.comparing(FiledTable::name)).toList();
  }

  /** The columns of filed rows that name files. */
  List<Naming> namings() {
    return filed()
        .flatMap(type -> Naming.of(type).stream())
        .sorted(Comparator.comparing(Naming::table))
        .toList();
  }

  /** What filed rows repeat of rows that are not filed. */
  List<Repeated> repeated() {
    return filed().flatMap(type -> Repeated.of(type).stream()).toList();
  }

  private Stream<Class<? extends Filed>> filed() {
    return entities.getMetamodel().getEntities().stream()
        .map(entity -> entity.getJavaType())
        .filter(Filed.class::isAssignableFrom)
        .map(type -> type.asSubclass(Filed.class));
  }
}
