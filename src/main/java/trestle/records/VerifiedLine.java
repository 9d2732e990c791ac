package trestle.records;

import java.time.Instant;
import java.util.HexFormat;

/**
 * One verification, as pages show it.
 *
 * @param trouble the first record that disagreed and how, or null
 * @param outside how a head or proof from outside disagreed, or null
 * @param nightly true where nobody asked for it
 */
public record VerifiedLine(
    Instant at, long size, String root, String trouble, String outside, boolean nightly) {

  static VerifiedLine of(Verification row) {
    return new VerifiedLine(
        row.beganAt,
        row.size,
        HexFormat.of().formatHex(row.root),
        row.trouble,
        row.outside,
        row.askedBy == null);
  }

  public boolean isSound() {
    return trouble == null && outside == null;
  }
}
