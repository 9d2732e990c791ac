package trestle.defects;

/**
 * A filed record that should not stand is taken away; it stays to be seen.
 *
 * @param licenceNumber under which an engineer signs for it; "" where nothing is signed
 */
public record TakingAway(String reason, String licenceNumber) {
  public TakingAway {
    reason = reason == null ? "" : reason.strip();
    licenceNumber = licenceNumber == null ? "" : licenceNumber.strip();
  }
}
