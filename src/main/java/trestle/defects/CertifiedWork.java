package trestle.defects;

import java.time.Instant;

/**
 * Work that an engineer certifies.
 *
 * @param words what was done, or what was found
 * @param dataReference the approved data it was done to
 * @param licenceNumber of the engineer, good on that day
 * @param at when it was done
 */
public record CertifiedWork(String words, String dataReference, String licenceNumber, Instant at) {
  public CertifiedWork {
    words = words == null ? "" : words.strip();
    dataReference = dataReference == null ? "" : dataReference.strip();
    licenceNumber = licenceNumber == null ? "" : licenceNumber.strip();
  }
}
