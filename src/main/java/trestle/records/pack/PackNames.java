package trestle.records.pack;

import java.util.regex.Pattern;

/** How the files of a pack are called (docs/record-pack.md). */
final class PackNames {
  static final String FORMAT = "trestle-record-pack";
  static final int VERSION = 1;

  /** The tag of the signature over the manifest. */
  static final String SIGNATURE = "TRESTLE-PACK-1";

  static final String README = "README.txt";
  static final String SUMMARY = "summary.pdf";
  static final String MANIFEST = "manifest.json";
  static final String MANIFEST_SIGNATURE = "manifest.sig";
  static final String PEOPLE = "context/people.csv";
  static final String AIRCRAFT = "context/aircraft.csv";
  static final String COMPONENTS = "context/components.csv";
  static final String REQUIREMENTS = "context/requirements.csv";
  static final String TOTALS = "context/totals.csv";
  static final String ATTACHMENTS = "context/attachments.csv";
  static final String HEAD = "ledger/head.txt";
  static final String LINES = "ledger/lines.ndjson";
  static final String PROOFS = "ledger/proofs.ndjson";

  /** Every name that a file of a pack may have: none leads out of the folder it is unpacked in. */
  private static final Pattern NAME =
      Pattern.compile(
          "README\\.txt|summary\\.pdf|manifest\\.(json|sig)|csv/[a-z][a-z0-9-]{0,59}\\.csv"
              + "|context/[a-z]{1,20}\\.csv|ledger/(head\\.txt|(lines|proofs)\\.ndjson)"
              + "|attachments/[0-9a-f]{64}\\.(jpg|png|pdf)");

  private PackNames() {}

  static boolean isName(String name) {
    return NAME.matcher(name).matches();
  }

  static String csv(String kind) {
    return "csv/" + kind + ".csv";
  }

  static String attachment(String sha256, Attachments.Kept file) {
    return "attachments/" + sha256 + file.extension();
  }
}
