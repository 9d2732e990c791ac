package trestle.signing;

import trestle.web.Role;

/**
 * As what a person signs.
 *
 * @param licenceNumber one of their own licences, or "" for none
 * @param licenceNeeded whether signing without a licence is refused
 */
public record Signer(Role role, String licenceNumber, boolean licenceNeeded) {

  public Signer {
    licenceNumber = licenceNumber == null ? "" : licenceNumber.strip();
  }

  /** An engineer never signs without a licence. */
  public static Signer engineer(String licenceNumber) {
    return new Signer(Role.ENGINEER, licenceNumber, true);
  }

  /** A pilot signs under a licence where the operator's rules ask for one. */
  public static Signer pilot(String licenceNumber, boolean licenceNeeded) {
    return new Signer(Role.PILOT, licenceNumber, licenceNeeded);
  }
}
