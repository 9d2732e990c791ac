package trestle.reckoning;

import java.util.Objects;

/**
 * The other requirement of a {@link Limit.With} limit, as it stands now.
 *
 * @param reckoning what the other requirement reckons to
 * @param doneSince whether it was done since this work was last done (or since counting started),
 *     without this work being done with it
 */
public record Companion(Reckoning reckoning, boolean doneSince) {

  public Companion {
    Objects.requireNonNull(reckoning, "reckoning");
  }
}
