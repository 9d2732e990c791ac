package trestle.people;

import com.password4j.Argon2Function;
import com.password4j.Password;
import com.password4j.types.Argon2;
import io.quarkus.runtime.LaunchMode;
import java.security.SecureRandom;

/**
 * Argon2id with 19 MiB, two passes and one lane (OWASP Password Storage Cheat Sheet, from memory).
 */
final class Passwords {
  private static final String LETTERS = "abcdefghjkmnpqrstuvwxyz23456789";
  private static final SecureRandom RANDOM = new SecureRandom();

  /**
   * Compared with when there is no such person, so that the time taken tells nobody who exists: the
   * hash of a password that was thrown away, made with the very settings above.
   */
  static final String NOBODYS =
      "$argon2id$v=19$m=19456,t=2,p=1$leybpKMfIhO8dnmKOCgBsA"
          + "$aLtBXgx9HWcwTV9fxq6z1W8081t4cquDSfmCn03OUak";

  static final int SHORTEST = 12;
  static final int LONGEST = 200;

  /** Apart from the rest, so that a start at which nobody signs in need not load them. */
  static final class Ways {
    static final Argon2Function ARGON2ID =
        Argon2Function.getInstance(19 * 1024, 2, 1, 32, Argon2.ID);

    /** For the hundreds of invented people of the tests, whose passwords stand in the source. */
    static final Argon2Function QUICK = Argon2Function.getInstance(64, 1, 1, 32, Argon2.ID);

    private Ways() {}
  }

  private Passwords() {}

  static String hash(String password) {
    return hash(password, LaunchMode.current() == LaunchMode.TEST ? Ways.QUICK : Ways.ARGON2ID);
  }

  static String hash(String password, Argon2Function way) {
    return Password.hash(password).addRandomSalt(16).with(way).getResult();
  }

  static boolean matches(String password, String hash) {
    boolean matched =
        Password.check(password, hash == null ? NOBODYS : hash)
            .with(Argon2Function.getInstanceFromHash(hash == null ? NOBODYS : hash));
    return matched && hash != null;
  }

  /** What is wrong with a new password, or null. */
  static String complaint(String password) {
    if (password.length() < SHORTEST) {
      return "Password must have at least " + SHORTEST + " characters. A few words do well.";
    }
    return password.length() > LONGEST
        ? "Password must have at most " + LONGEST + " characters."
        : null;
  }

  /** Three groups of five, easily read off a screen: about 74 bits. */
  static String made() {
    StringBuilder made = new StringBuilder();
    for (int i = 0; i < 15; i++) {
      made.append(i > 0 && i % 5 == 0 ? "-" : "")
          .append(LETTERS.charAt(RANDOM.nextInt(LETTERS.length())));
    }
    return made.toString();
  }
}
