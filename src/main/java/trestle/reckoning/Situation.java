package trestle.reckoning;

import java.time.LocalDate;
import java.util.Map;
import java.util.Objects;

/**
 * The moment at which a requirement is reckoned.
 *
 * @param asOf today, in the operator's one time zone
 * @param usage the subject's totals now
 * @param utilisation the rates a day used for projection
 * @param companions the requirements that {@link Limit.With} limits name, by that name
 */
public record Situation(
    LocalDate asOf, Usage usage, Utilisation utilisation, Map<String, Companion> companions) {

  public Situation {
    Objects.requireNonNull(asOf, "asOf");
    Objects.requireNonNull(usage, "usage");
    Objects.requireNonNull(utilisation, "utilisation");
    companions = Map.copyOf(companions);
  }

  public Situation(LocalDate asOf, Usage usage, Utilisation utilisation) {
    this(asOf, usage, utilisation, Map.of());
  }

  public Situation(LocalDate asOf, Usage usage) {
    this(asOf, usage, Utilisation.NONE);
  }
}
