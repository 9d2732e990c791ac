package trestle.server;

/** The program will not start, and says in one sentence what to do about it. */
public class StartRefused extends RuntimeException {
  /** The command line was not understood. */
  static final int USAGE = 2;

  private static final int REFUSED = 1;

  private final int exitCode;

  public StartRefused(String sentence) {
    this(sentence, REFUSED);
  }

  StartRefused(String sentence, int exitCode) {
    super(sentence, null, false, false);
    this.exitCode = exitCode;
  }

  int exitCode() {
    return exitCode;
  }
}
