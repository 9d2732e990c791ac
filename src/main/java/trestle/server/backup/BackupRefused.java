package trestle.server.backup;

/** A backup that can't be written, or must not be taken back; the sentence says why. */
public class BackupRefused extends RuntimeException {
  public BackupRefused(String sentence) {
    super(sentence, null, false, false);
  }
}
