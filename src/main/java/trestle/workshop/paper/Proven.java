package trestle.workshop.paper;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import trestle.formats.Base32;
import trestle.formats.Qr;
import trestle.ledger.PrintedProof;

/**
 * The proof that a certificate stands in the ledger, as it is printed.
 *
 * @param at when the head was signed, in the operator's time
 */
public record Proven(PrintedProof proof, String at) {
  public long seq() {
    return proof.inclusion().seq();
  }

  public long size() {
    return proof.head().size();
  }

  public String key() {
    return Base32.of(proof.head().publicKey());
  }

  /** The text in lines that fit the paper; put together again they are the text. */
  public List<String> lines(int length) {
    String text = proof.text();
    List<String> lines = new ArrayList<>();
    for (int at = 0; at < text.length(); at += length) {
      lines.add(text.substring(at, Math.min(at + length, text.length())));
    }
    return lines;
  }

  /**
   * The code, as a picture to put into a page: a link to the proof's page with the proof in it. In
   * capitals, which a code packs tightly; scheme and host don't mind.
   */
  public String code(String address) {
    return Qr.picture(address.toUpperCase(Locale.ROOT) + "P/" + proof.text());
  }
}
