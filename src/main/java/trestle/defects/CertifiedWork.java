package trestle.defects;

import java.time.Instant;

/**
 * Work that an engineer certifies.
 *
 * @param words what was done, or what was found
 * @param dataReference the approved data it was done to
 * @param licenceNumber of the engineer, good on that day
 * @param at when it was done
 * @param inspected on a line of a work order, where a second person has inspected it if one had to
 */
public record CertifiedWork(
    String words, String dataReference, String licenceNumber, Instant at, boolean inspected) {

  public CertifiedWork(String words, String dataReference, String licenceNumber, Instant at) {
    this(words, dataReference, licenceNumber, at, false);
  }

  public CertifiedWork {
    words = words == null ? "" : words.strip();
    dataReference = dataReference == null ? "" : dataReference.strip();
    licenceNumber = licenceNumber == null ? "" : licenceNumber.strip();
  }
}
