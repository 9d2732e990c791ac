package trestle.records;

import java.util.HexFormat;
import java.util.List;
import trestle.formats.Base32;

/**
 * What came of checking a printed proof or a head by itself.
 *
 * @param troubles what is wrong with it, in sentences; empty when it holds
 * @param text "right" or "wrong" where the record's text was handed in too, else ""
 * @param here "agrees", "disagrees" or "unknown": what this installation's own ledger says
 */
public record Checked(OutsideText given, List<String> troubles, String text, String here) {

  public boolean holds() {
    return troubles.isEmpty() && !text.equals("wrong") && !here.equals("disagrees");
  }

  /** Whether it holds together by itself, whatever else is wrong. */
  public boolean isSound() {
    return troubles.isEmpty();
  }

  public boolean isProof() {
    return given.isProof();
  }

  public long seq() {
    return given.proof().inclusion().seq();
  }

  public long size() {
    return given.head().size();
  }

  public String at() {
    return given.head().at().toString().replace('T', ' ').replace("Z", " UTC");
  }

  public String root() {
    return HexFormat.of().formatHex(given.head().root());
  }

  public String leaf() {
    return HexFormat.of().formatHex(given.proof().inclusion().leaf());
  }

  public String key() {
    return Base32.of(given.head().publicKey());
  }

  public String operator() {
    return given.head().operatorId().toString();
  }
}
