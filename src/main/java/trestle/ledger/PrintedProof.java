package trestle.ledger;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import trestle.formats.Base32;

/**
 * That a record stands in an operator's ledger, with all that is needed to check it: the signed
 * head and the way from the record's leaf to its root.
 *
 * <p>As text, one line (docs/ledger.md); the path is its hashes one after another:
 *
 * <pre>TRESTLE-PROOF-1.operator.size.time.root.key.signature.seq.leaf.path</pre>
 */
public record PrintedProof(SignedHead head, Inclusion inclusion) {
  static final String TAG = "TRESTLE-PROOF-1";
  private static final int FIELDS = SignedHead.FIELDS + 3;

  /** Of 32 bytes in base 32. */
  private static final int HASH_LETTERS = 52;

  /**
   * What is wrong with it, in a sentence; empty when leaf, path, root, size, time, operator and
   * signature all agree. Whose key it is, and what the record says, no proof can tell by itself.
   */
  public List<String> troubles() {
    List<String> troubles = new ArrayList<>();
    if (!head.verify()) {
      troubles.add("The signature does not belong to this head and this public key.");
    }
    if (inclusion.size() != head.size()) {
      troubles.add("The path is for another size than the head's.");
    }
    try {
      if (!Arrays.equals(inclusion.root(), head.root())) {
        troubles.add("The record and the path do not lead to the root that was signed.");
      }
    } catch (IllegalArgumentException e) {
      troubles.add("The path leads nowhere: " + e.getMessage() + ".");
    }
    return troubles;
  }

  public boolean holds() {
    return troubles().isEmpty();
  }

  public String text() {
    return String.join(
        ".",
        TAG + head.text().substring(SignedHead.TAG.length()),
        Long.toString(inclusion.seq()),
        Base32.of(inclusion.leaf()),
        inclusion.path().stream().map(Base32::of).collect(Collectors.joining()));
  }

  /**
   * Reads back what {@link #text} wrote, and nothing else; spaces and line ends are passed over.
   *
   * @throws IllegalArgumentException saying in a sentence what is wrong with it
   */
  public static PrintedProof parse(String text) {
    List<String> fields = List.of(text.replaceAll("\\s", "").split("\\.", -1));
    if (!fields.get(0).equals(TAG)) {
      throw new IllegalArgumentException("A printed proof begins with " + TAG + ".");
    }
    if (fields.size() != FIELDS) {
      throw new IllegalArgumentException(
          "A printed proof has " + FIELDS + " parts between dots, this has " + fields.size() + ".");
    }
    SignedHead head = SignedHead.read(fields);
    Inclusion inclusion =
        new Inclusion(
            SignedHead.count(fields.get(7), "record's number"),
            head.size(),
            SignedHead.hash(fields.get(8), SignedHead.ROOT_BYTES, "leaf"),
            path(fields.get(9)));
    return new PrintedProof(head, inclusion);
  }

  private static List<byte[]> path(String field) {
    if (field.length() % HASH_LETTERS != 0 || field.length() > 64 * HASH_LETTERS) {
      throw new IllegalArgumentException("The path is not a row of whole hashes.");
    }
    List<byte[]> path = new ArrayList<>();
    for (int at = 0; at < field.length(); at += HASH_LETTERS) {
      String hash = field.substring(at, at + HASH_LETTERS);
      path.add(SignedHead.hash(hash, SignedHead.ROOT_BYTES, "path"));
    }
    return path;
  }
}
